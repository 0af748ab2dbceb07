import type { Course } from '../course/index.ts'
import type { Analyte } from '../results/index.ts'
import { addDays, type Day, earlierDay } from '../time/index.ts'

/** The axis all charts of one patient share. */
export interface Span {
  readonly from: Day
  readonly to: Day
}

const DRAWN: readonly Analyte[] = ['serum-m-protein', 'urine-m-protein', 'kappa-flc', 'lambda-flc', 'haemoglobin', 'creatinine', 'calcium']
/** Shortest axis, in days: a first sample of today still gets a place. */
const SHORTEST = 90

/** From the first result drawn, treatment line or diagnosis to the day asked about. */
export function sharedSpan(course: Course): Span {
  const to = course.today
  const starts = [
    ...DRAWN.flatMap((analyte) => course.samplesOf(analyte)[0]?.on ?? []),
    ...course.lines.map((line) => line.start),
    ...(course.diagnosedOn === null ? [] : [course.diagnosedOn]),
  ]
  return { from: starts.reduce(earlierDay, addDays(to, -SHORTEST)), to }
}
