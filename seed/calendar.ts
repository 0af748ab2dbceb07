import { addDays, type Day } from '../lib/time/index.ts'

/** A day as the invented courses count it: 0 is the last day of the cohort, -1 the day before. */
export type Offset = number

/** Turns offsets into days; throws RangeError for an offset outside the years asked for. */
export type Calendar = (offset: Offset) => Day

/** Every day of the cohort, worked out once: a million look-ups cost less than a million calendar sums. */
export function calendar(endsOn: Day, years: number): Calendar {
  const first = -Math.ceil(years * 366)
  const days = Array.from({ length: 1 - first }, (_, index) => addDays(endsOn, first + index))
  return (offset) => {
    const found = days[offset - first]
    if (found === undefined) throw new RangeError(`${offset} is no day of the cohort`)
    return found
  }
}
