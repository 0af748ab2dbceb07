import { type Course, hasNumber, type Measurement } from '../course/index.ts'
import type { Analyte } from '../results/index.ts'

/** Samples of one analyte that carry a number, oldest first. */
export function measured(course: Course, analyte: Analyte): readonly Measurement[] {
  return course.samplesOf(analyte).filter(hasNumber)
}
