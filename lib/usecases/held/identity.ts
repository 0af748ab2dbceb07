import { field } from '../../intake/index.ts'
import type { HeldRow, Reader } from '../../store/index.ts'
import { rawRowOf } from '../intake/releaseHeld.ts'
import { personName } from '../personName.ts'
import { type NeighboursView, neighboursOf } from './neighbours.ts'

/** What identifies the two a person compares: the row as received, and a patient. */
export interface ComparedView {
  readonly row: { readonly identifier: string; readonly birthDate: string; readonly sex: string; readonly name: string }
  readonly patient: {
    readonly patientId: string
    readonly name: string | null
    readonly birthDate: string
    readonly sex: string
    /** Other identifiers that were decided to be this patient's, each with its source. */
    readonly identifiers: readonly { readonly source: string; readonly identifier: string }[]
  }
  /** What does not agree, in words. */
  readonly differs: readonly string[]
  /** The patient's values around the row as if it were theirs; null where its test or day could not be read. */
  readonly near: NeighboursView | null
}

/** The row beside the patient; null where nobody has this identifier. */
export function comparedWith(
  reader: Pick<Reader, 'patient' | 'allMappings' | 'sourceKnowledge' | 'resultsAround'>,
  held: HeldRow,
  patientId: string,
): ComparedView | null {
  const patient = reader.patient(patientId)?.patient ?? null
  if (patient === null) return null
  const of = (column: string) => field(rawRowOf(held), column)
  const row = {
    identifier: of('patient_id'),
    birthDate: of('birth_date'),
    sex: of('sex'),
    name: [of('family_name'), of('given_name')].filter(Boolean).join(', '),
  }
  const identifiers = reader
    .allMappings()
    .filter((one) => one.kind === 'patient' && one.meaning === patientId && one.revoked === null)
    .map(({ source, received }) => ({ source, identifier: received }))
  const { birthDate, sex } = patient
  const differs = [
    ...(row.birthDate === '' ? ['the row gives no birth date'] : row.birthDate === birthDate ? [] : ['the birth dates differ']),
    ...(row.sex === '' ? ['the row gives no sex'] : row.sex === sex ? [] : ['the sexes differ']),
  ]
  const near = neighboursOf(reader, { ...held, decided: { ...held.decided, patient_id: patientId } })
  return { row, near, patient: { patientId, name: personName(patient), birthDate, sex, identifiers }, differs }
}
