import { type Course, exceedsMultiple, ratioAbnormal, ratioIntervalFor } from '../course/index.ts'
import { above, anyHolds, type Decimal, type Holds, type Interval } from '../units/index.ts'

/** Latest serum M-protein with a number, g/L; null without one. */
export function latestSerum(course: Course): Interval | null {
  return course.markers['serum-m-protein'].samples.at(-1)?.value ?? null
}

/** Latest plasma cells of the marrow, %; null without one. */
export function latestMarrow(course: Course): Interval | null {
  return course.marrow.findLast((sample) => sample.percent !== null)?.percent ?? null
}

/** Whether the latest kappa/lambda ratio is abnormal; null without a sample of both chains. */
export function latestRatioAbnormal(course: Course): Holds | null {
  const pair = course.lightChains.at(-1)
  if (pair === undefined) return null
  return ratioAbnormal({ kappa: pair.kappa.value, lambda: pair.lambda.value }, ratioIntervalFor(course, pair.on))
}

/**
 * Whether the latest involved ratio is above `limit`, exact; null without a sample of both chains. Where the involved chain is not known, whether the
 * ratio is that far off in either direction.
 */
export function latestInvolvedRatioAbove(course: Course, limit: Decimal): Holds | null {
  const pair = course.lightChains.at(-1)
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
