import { type Course, hasNumber, type MarrowSample, type Measurement } from '../course/index.ts'
import { isExact } from '../units/index.ts'

function asMeasurement({ on, percent }: MarrowSample): Measurement | null {
  if (percent === null) return null
  const comparator = isExact(percent) ? null : percent.high === null ? '>=' : '<='
  return { on, value: percent, printed: null, comparator, words: null, laboratory: null, method: null, results: [] }
}

/** Marrow plasma cells in per cent as a series, oldest first; a marrow a laboratory reported keeps its results. */
export function marrowPercents(course: Course): readonly Measurement[] {
  const reported = new Map(
    course
      .samplesOf('marrow-plasma-cells')
      .filter(hasNumber)
      .map((sample) => [sample.on, sample]),
  )
  return course.marrow.flatMap((sample) => {
    const plain = asMeasurement(sample)
    const lab = reported.get(sample.on)
    if (plain === null) return []
    return lab?.value.low.eq(plain.value.low) && lab.value.high?.eq(plain.value.high ?? -1) ? [lab] : [plain]
  })
}
