import { type Course, exceedsMultiple, ratioAbnormal, ratioIntervalFor } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { above, anyHolds, type Decimal, type Holds, type Interval } from '../units/index.ts'

/** Latest serum M-protein with a number up to a day, g/L; null without one. */
export function latestSerum(course: Course, on: Day = course.today): Interval | null {
  return course.markers['serum-m-protein'].samples.findLast((sample) => sample.on <= on)?.value ?? null
}

/** Latest plasma cells of the marrow up to a day, %; null without one. */
export function latestMarrow(course: Course, on: Day = course.today): Interval | null {
  return course.marrow.findLast((sample) => sample.percent !== null && sample.on <= on)?.percent ?? null
}

/** Whether the latest kappa/lambda ratio up to a day is abnormal; null without a sample of both chains. */
export function latestRatioAbnormal(course: Course, on: Day = course.today): Holds | null {
  const pair = course.lightChains.findLast((chains) => chains.on <= on)
  if (pair === undefined) return null
  return ratioAbnormal({ kappa: pair.kappa.value, lambda: pair.lambda.value }, ratioIntervalFor(course, pair.on))
}

/**
 * Whether the latest involved ratio up to a day is above `limit`, exact; null without a sample of both chains. Where the involved chain is not known,
 * whether the ratio is that far off in either direction.
 */
export function latestInvolvedRatioAbove(course: Course, limit: Decimal, on: Day = course.today): Holds | null {
  const pair = course.lightChains.findLast((chains) => chains.on <= on)
  if (pair === undefined) return null
  const kappa = exceedsMultiple(pair.kappa.value, pair.lambda.value, limit)
  const lambda = exceedsMultiple(pair.lambda.value, pair.kappa.value, limit)
  const chain = course.involved?.chain
  return chain === undefined ? anyHolds(kappa, lambda) : chain === 'kappa' ? kappa : lambda
}

/** Whether a value is above a limit; null where it is not known. */
export function aboveOrUnknown(value: Interval | null, limit: Decimal): Holds | null {
  return value === null ? null : above(value, limit)
}
