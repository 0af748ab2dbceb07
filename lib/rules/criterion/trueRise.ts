import { normalQuantile } from '../../statistics/index.ts'
import { type LogSample, type PossibleCourse, possibleCourses } from './possibleCourses.ts'

const USUAL = normalQuantile(0.975)

/** Where the level around a sample begins: its earlier neighbours, for as long as noise alone explains their distance from the mean so far. */
function levelBegins(samples: readonly LogSample[], reference: number, deviation: number): number {
  let begin = reference
  let sum = samples[reference]?.log ?? 0
  for (let at = reference - 1; at >= 0; at -= 1) {
    const [log, count] = [samples[at]?.log ?? 0, reference - begin + 1]
    if (Math.abs(log - sum / count) > USUAL * deviation * Math.sqrt(1 + 1 / count)) break
    sum += log
    begin = at
  }
  return begin
}

/** Places of the standard normal distribution that halve it into 16 equal parts, one in the middle of each. */
const MIDDLES = Array.from({ length: 16 }, (_, at) => normalQuantile((at + 0.5) / 16))
/** Courses less probable than this change no second digit. */
const LEAST_WEIGHT = 2e-4

function reached({ level, error, risen }: PossibleCourse, needed: (reference: number) => number): number {
  let count = 0
  for (const z of MIDDLES) {
    const log = level + z * error
    if (Math.exp(log + risen) >= needed(Math.exp(log))) count += 1
  }
  return count / MIDDLES.length
}

/**
 * Probability, 0 to 1, that the true value has risen from its level at sample `reference` to what `needed` asks above that level by the last
 * sample. `samples` are oldest first and all comparable; `deviation` that of ln(value) between samples of one true value.
 */
export function trueRise(samples: readonly LogSample[], reference: number, deviation: number, needed: (reference: number) => number): number {
  const since = samples.slice(levelBegins(samples, reference, deviation))
  return possibleCourses(since, deviation)
    .filter(({ weight }) => weight > LEAST_WEIGHT)
    .reduce((sum, course) => sum + course.weight * reached(course, needed), 0)
}
