import type { Course, Sample } from '../../course/index.ts'
import type { Band } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { Evidence } from '../finding.ts'

export const SPECIMENS = { serum: 'serum-immunofixation', urine: 'urine-immunofixation' } as const
export type Specimen = keyof typeof SPECIMENS
export const SPECIMEN_NAMES: readonly Specimen[] = ['serum', 'urine']
export const SPECIMEN_WORDS: Readonly<Record<Specimen, string>> = { serum: 'Serum', urine: 'Urine' }

/** One immunofixation that could be read as positive or negative; "cannot exclude" and unread texts say neither and are left out. */
export interface Fixation {
  readonly specimen: Specimen
  readonly on: Day
  readonly sample: Sample
  /** Empty for a negative one. */
  readonly bands: readonly Band[]
}

/** Every immunofixation of one specimen that could be read, oldest first. */
export function fixationsOf(course: Pick<Course, 'samplesOf'>, specimen: Specimen): readonly Fixation[] {
  return course.samplesOf(SPECIMENS[specimen]).flatMap((sample): Fixation[] => {
    const value = sample.results[0]?.value
    if (value?.kind !== 'immunofixation') return []
    const { reading } = value
    if (reading.reading !== 'negative' && reading.reading !== 'positive') return []
    return [{ specimen, on: sample.on, sample, bands: reading.reading === 'positive' ? reading.bands : [] }]
  })
}

/** A band as a reader meets it: "IgG kappa", "free lambda". */
export function bandText({ heavy, light }: Band): string {
  return heavy === null ? `free ${light ?? 'light chain'}` : `Ig${heavy} ${light ?? '(light chain not named)'}`
}

/** An immunofixation as evidence: its words as received. */
export function fixationEvidence(role: Evidence['role'], { sample, on, specimen }: Fixation): Evidence {
  const resultIds = sample.results.map((result) => result.id)
  return { role, analyte: SPECIMENS[specimen], value: sample.words ?? '', unit: '', comparator: null, collectedOn: on, resultIds }
}
