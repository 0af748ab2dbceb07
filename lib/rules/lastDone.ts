import { type Course, hasNumber, type Sample } from '../course/index.ts'
import { type DueTest, GROUP_ANALYTES } from '../plan/index.ts'
import type { Analyte } from '../results/index.ts'
import { evidenceOf } from './evidence.ts'
import type { Evidence } from './finding.ts'

/** Unit kept for each analyte of a test group (clinical.md 1.3). */
const UNITS: Partial<Record<Analyte, string>> = {
  'serum-m-protein': 'g/L',
  'kappa-flc': 'mg/L',
  'lambda-flc': 'mg/L',
  haemoglobin: 'g/L',
  platelets: '10*9/L',
  neutrophils: '10*9/L',
  creatinine: 'umol/L',
  calcium: 'mmol/L',
  'urine-m-protein': 'mg/24 h',
  igg: 'g/L',
  iga: 'g/L',
  igm: 'g/L',
}

function previous(analyte: Analyte, sample: Sample): Evidence {
  if (hasNumber(sample)) return evidenceOf('previous', analyte, UNITS[analyte] ?? '', sample)
  const resultIds = sample.results.map((result) => result.id)
  return { role: 'previous', analyte, value: sample.words ?? '', unit: '', comparator: null, collectedOn: sample.on, resultIds }
}

/** The sample that last did the test, as evidence of what the wait is counted from; none where it was never done. */
export function lastDone(course: Course, { group, lastDoneOn }: DueTest): readonly Evidence[] {
  return GROUP_ANALYTES[group].flatMap((analyte) => {
    const sample = lastDoneOn === null ? undefined : course.samplesOf(analyte).find(({ on }) => on === lastDoneOn)
    return sample === undefined ? [] : [previous(analyte, sample)]
  })
}

/** What both sentences about a test past its day say. */
export function dueFacts({ group, dueOn, graceEndsOn, lastDoneOn }: DueTest): Record<string, string> {
  return { group, dueOn, graceEndsOn, ...(lastDoneOn === null ? {} : { lastDoneOn }) }
}
