import type { Course, Measurement } from '../course/index.ts'
import { daysBetween } from '../time/index.ts'
import { type Decimal, decimal, type Holds, type Interval, smallerInterval } from '../units/index.ts'

/** Ratio to the lowest creatinine of the days before (after KDIGO 2012; the days are ours). */
export const INJURY_RATIO: Decimal = decimal('1.5')
/** Days for which such a rise is news (clinical.md 3.3). */
export const INJURY_COUNTS_DAYS = 14

/** A creatinine held against the lowest of the days before it. */
export interface KidneyInjury {
  readonly holds: Holds
  /** The sample with the smallest upper end, the earliest when equal. */
  readonly lowest: Measurement
  readonly lowestValue: Interval
}

function holdsAgainst(current: Interval, lowest: Interval): Holds {
  if (lowest.high !== null && current.low.gte(lowest.high.times(INJURY_RATIO))) return 'certain'
  return current.high === null || current.high.gte(lowest.low.times(INJURY_RATIO)) ? 'possible' : 'no'
}

function endsLower(a: Interval, b: Interval): boolean {
  return a.high !== null && (b.high === null || a.high.lt(b.high))
}

/** Judges creatinine `at`; null without another one in the `lookBackDays` before it. */
export function kidneyInjuryAt(samples: readonly Measurement[], at: number, lookBackDays: number): KidneyInjury | null {
  const current = samples[at]
  if (current === undefined) return null
  let lowest: Measurement | null = null
  let lowestValue: Interval | null = null
  for (let before = at - 1; before >= 0; before -= 1) {
    const sample = samples[before] as Measurement
    if (daysBetween(sample.on, current.on) > lookBackDays) break
    // Walking back in time: an equal value found later is the earlier one.
    if (lowest === null || !endsLower(lowest.value, sample.value)) lowest = sample
    lowestValue = lowestValue === null ? sample.value : smallerInterval(lowestValue, sample.value)
  }
  return lowest === null || lowestValue === null ? null : { holds: holdsAgainst(current.value, lowestValue), lowest, lowestValue }
}

/** Whether the latest creatinine shows an injury that is still news today. */
export function kidneyInjuryToday(course: Course): Holds {
  const { samples } = course.markers.creatinine
  const last = samples.at(-1)
  if (last === undefined || daysBetween(last.on, course.today) > INJURY_COUNTS_DAYS) return 'no'
  return kidneyInjuryAt(samples, samples.length - 1, course.thresholds.kidneyInjuryDays)?.holds ?? 'no'
}
