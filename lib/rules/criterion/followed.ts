import { baselineAt, type Course, lowest, lowestConfirmed, type Measurement, openingOf } from '../../course/index.ts'
import type { Followed } from './rising.ts'

/** A series outside the markers, followed like one: from the baseline of the current line on. */
export function followedFrom(course: Course, name: string, unit: string, samples: readonly Measurement[]): Followed {
  const at = baselineAt(samples, openingOf(course.phase, course.line, course.diagnosedOn, course.thresholds))
  const window = at === null ? [] : samples.slice(at)
  return { name, unit, window, lowest: lowest(window), lowestConfirmed: lowestConfirmed(window) }
}
