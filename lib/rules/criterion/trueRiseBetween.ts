import { normalQuantile } from '../../statistics/index.ts'
import { PRECURSOR } from './beliefs.ts'
import { levelBegins } from './levelBegins.ts'
import { possibleCourses } from './possibleCourses.ts'
import { reached } from './reached.ts'
import type { TrueRise } from './trueRise.ts'

/** So far above the later ones noise hardly ever puts a sample: the value has fallen since, of which no course knows. */
const FALLEN = normalQuantile(0.999)
/** Finer beliefs give more courses than treated disease has, so each counts for less. */
const LEAST_WEIGHT = 1e-5

/**
 * In MGUS and smouldering myeloma: the true reference is the true value on the day of sample `reference`, which a course that was growing before has
 * raised above its level already. Lower samples before it are weighed too, because they tell of such growth; from a clear fall on none is.
 */
export const trueRiseBetween: TrueRise = (samples, reference, deviation, needed) => {
  const since = samples.slice(levelBegins(samples, reference, deviation, (distance, spread) => distance > FALLEN * spread))
  const days = (samples.at(-1)?.day ?? 0) - (samples[reference]?.day ?? 0)
  return possibleCourses(since, deviation, PRECURSOR)
    .filter(({ weight, risen }) => weight > LEAST_WEIGHT && risen > 0)
    .reduce((sum, { weight, level, error, risen, growth }) => {
      const before = Math.max(0, risen - growth * days)
      return sum + weight * reached(level + before, error, risen - before, needed)
    }, 0)
}
