import { baselineAt, type Course, lowest, lowestConfirmed, type Marker, type Measurement, openingOf } from '../course/index.ts'

/** Marrow plasma cells (%) followed like a marker: from the baseline of the current line on, with the lowest values before each sample. */
export function marrowSeries(course: Course): Pick<Marker, 'window' | 'lowest' | 'lowestConfirmed'> {
  const counted = course.marrow.flatMap(({ on, percent }): Measurement[] =>
    percent === null ? [] : [{ on, value: percent, printed: null, comparator: null, words: null, laboratory: null, method: null, results: [] }],
  )
  const at = baselineAt(counted, openingOf(course.phase, course.line, course.diagnosedOn, course.thresholds))
  const window = at === null ? [] : counted.slice(at)
  return { window, lowest: lowest(window), lowestConfirmed: lowestConfirmed(window) }
}
