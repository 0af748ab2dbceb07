import type { Analyte } from '../results/index.ts'
import type { Assessment } from '../standing/index.ts'
import { addDays, type Day, earlierDay } from '../time/index.ts'
import { countsShown } from './countsShown.ts'

/** The axis all charts of one patient share. */
export interface Span {
  readonly from: Day
  readonly to: Day
}

const DRAWN: readonly Analyte[] = ['serum-m-protein', 'urine-m-protein', 'kappa-flc', 'lambda-flc', 'haemoglobin', 'creatinine', 'calcium']
/** Shortest axis, in days: a first sample of today still gets a place. */
const SHORTEST = 90

/** From the first result drawn, treatment line or diagnosis to the day asked about. */
export function sharedSpan(assessment: Pick<Assessment, 'course' | 'findings'>): Span {
  const { today: to, immunoglobulin, samplesOf, lines, diagnosedOn } = assessment.course
  const drawn: readonly Analyte[] = [...DRAWN, ...countsShown(assessment), ...(immunoglobulin === null ? [] : [immunoglobulin.name])]
  const starts = [
    ...drawn.flatMap((analyte) => samplesOf(analyte)[0]?.on ?? []),
    ...lines.map((line) => line.start),
    ...(diagnosedOn === null ? [] : [diagnosedOn]),
  ]
  return { from: starts.reduce(earlierDay, addDays(to, -SHORTEST)), to }
}
