import type { Course } from '../course/index.ts'
import { ANALYTES } from '../results/index.ts'
import type { Day } from '../time/index.ts'

/** Collection day of the first result with a value; null while there is none. */
export function firstSampleOn(course: Course): Day | null {
  const days = ANALYTES.flatMap((analyte) => course.samplesOf(analyte)[0]?.on ?? [])
  return days.sort()[0] ?? null
}
