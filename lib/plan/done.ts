import type { Course } from '../course/index.ts'
import type { Analyte } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import type { TestGroup } from './plan.ts'

/** What a sample must hold, each with a value, to have done a test group (clinical.md 5). Imaging is done by a recorded imaging. */
export const GROUP_ANALYTES: Readonly<Record<TestGroup, readonly Analyte[]>> = {
  'serum-m-protein': ['serum-m-protein'],
  'free-light-chains': ['kappa-flc', 'lambda-flc'],
  'blood-count': ['haemoglobin', 'platelets', 'neutrophils'],
  chemistry: ['creatinine', 'calcium'],
  'urine-24h': ['urine-m-protein'],
  immunoglobulins: ['igg', 'iga', 'igm'],
  imaging: [],
}

/** Days on which a test group was done, earliest first: all its analytes collected that day with a value ("trace" and "not detected" are values). */
export function daysDone(course: Course, group: TestGroup): readonly Day[] {
  if (group === 'imaging') return [...new Set(course.imaging.map((event) => event.on))].sort()
  const [first = [], ...others] = GROUP_ANALYTES[group].map((analyte) => course.samplesOf(analyte).map((sample) => sample.on))
  const days = others.map((of) => new Set(of))
  return first.filter((on) => days.every((of) => of.has(on)))
}
