import type { Measurement, Thresholds } from '../course/index.ts'
import { type LogLinearFit, logLinearFit, slopeInterval } from '../statistics/index.ts'
import { addDays, type Day, daysBetween } from '../time/index.ts'
import { type Decimal, isExact } from '../units/index.ts'
import { withinMonths } from './withinMonths.ts'

/** A straight line through the logarithms of a series, and the day on which it meets a level. */
export interface Projection {
  /** The samples it rests on, oldest first. */
  readonly points: readonly Measurement[]
  readonly fit: LogLinearFit
  readonly meetsOn: Day
}

/** Farther ahead than this no plan looks. */
const FARTHEST_DAYS = 36_525
/** Keeps a line that meets its level on a whole day from being carried into the next one by the last digit of a logarithm. */
const DIGIT = 1e-9

/** True when the line rises even at the one-sided lower bound of its slope, confidence in per cent. */
function surelyRises(fit: LogLinearFit, percent: number): boolean {
  const bounds = slopeInterval(fit, (2 * percent) / 100 - 1)
  return bounds !== null && bounds[0] > 0
}

/**
 * The line through the exact samples above 0 of the clinic's months up to the latest sample, and the first day on which it is at the level or above.
 * Null with too few samples, for a line that does not surely rise, or one that has met the level by the latest sample or will not in a hundred years.
 */
export function projected(samples: readonly Measurement[], level: Decimal, asked: Thresholds): Projection | null {
  const latest = samples.at(-1)
  if (latest === undefined || level.lte(0)) return null
  const points = samples.filter(({ on, value }) => withinMonths(on, latest.on, asked.projectionMonths) && isExact(value) && value.low.gt(0))
  const [first] = points
  if (first === undefined || points.length < asked.projectionSamples) return null
  const fit = logLinearFit(points.map(({ on, value }) => ({ on, value: Number(value.low) })))
  if (fit === null || fit.slope <= 0) return null
  const days = Math.ceil((Math.log(Number(level)) - fit.intercept) / fit.slope - DIGIT)
  if (days > FARTHEST_DAYS || days <= daysBetween(first.on, latest.on) || !surelyRises(fit, asked.projectionPercent)) return null
  return { points, fit, meetsOn: addDays(first.on, days) }
}
