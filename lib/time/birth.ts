import { Temporal } from 'temporal-polyfill'
import { type Day, parseDay } from './day.ts'

declare const birthMark: unique symbol

/** A date of birth as far as it is known: `YYYY`, `YYYY-MM` or `YYYY-MM-DD`. */
export type BirthDate = string & { readonly [birthMark]: true }

/** Reads a date of birth; null when it is none of the three forms or names no real day. */
export function parseBirthDate(text: string): BirthDate | null {
  if (/^(?!0000)\d{4}$/.test(text)) return text as BirthDate
  if (/^\d{4}-\d{2}$/.test(text)) return parseDay(`${text}-01`) === null ? null : (text as BirthDate)
  return parseDay(text) === null ? null : (text as unknown as BirthDate)
}

/** The more precise of two dates of birth that agree: a year agrees with every day in it. Null where they do not agree. */
export function agreedBirth(told: BirthDate, known: BirthDate): BirthDate | null {
  if (told.startsWith(known)) return told
  return known.startsWith(told) ? known : null
}

/** The earliest day the person can have been born on. */
export function earliestBirthDay(birth: BirthDate): Day {
  return `${birth}-01-01`.slice(0, 10) as Day
}

/**
 * Completed years at `on`. `exact` is false when only a year or a month of birth is known: the age then counts
 * from the first day of that year or month and may be one year too high.
 */
export function ageAt(birth: BirthDate, on: Day): { years: number; exact: boolean } {
  const born = earliestBirthDay(birth)
  const years = Number(on.slice(0, 4)) - Number(born.slice(0, 4))
  // Completed on the birthday; a 29 February comes round on 1 March. Before birth, years still to come, 0 within the last one.
  const exact = birth.length === 10
  if (on >= born) return { years: on.slice(5) >= born.slice(5) ? years : years - 1, exact }
  return { years: Temporal.PlainDate.from(born).until(Temporal.PlainDate.from(on), { largestUnit: 'years' }).years, exact }
}
