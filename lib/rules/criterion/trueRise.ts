import { normalQuantile } from '../../statistics/index.ts'
import { levelBegins } from './levelBegins.ts'
import { type LogSample, possibleCourses } from './possibleCourses.ts'
import { reached } from './reached.ts'

const USUAL = normalQuantile(0.975)
/** Courses less probable than this change no second digit. */
const LEAST_WEIGHT = 2e-4

/**
 * Probability, 0 to 1, that a true value meets by the last sample what `needed` asks above the true reference. `samples` are oldest first and all
 * comparable; `reference` is the place of one; `deviation` that of ln(value) between samples of one true value.
 */
export type TrueRise = (samples: readonly LogSample[], reference: number, deviation: number, needed: (reference: number) => number) => number

/**
 * In treated disease: the true reference is the level around sample `reference`, which begins with its earlier neighbours for as long as noise alone
 * explains their distance from the mean so far.
 */
export const trueRise: TrueRise = (samples, reference, deviation, needed) => {
  const since = samples.slice(levelBegins(samples, reference, deviation, (distance, spread) => Math.abs(distance) > USUAL * spread))
  return possibleCourses(since, deviation)
    .filter(({ weight }) => weight > LEAST_WEIGHT)
    .reduce((sum, { weight, level, error, risen }) => sum + weight * reached(level, error, risen, needed), 0)
}
