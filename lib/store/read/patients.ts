import type { Connection } from '../connection.ts'
import { type StoredPatient, type StoredPatientColumns, storedPatient } from '../rows/patient.ts'
import { IS_JOINED } from './merges.ts'

/** Every patient's id, in order. A record that is joined to another is no patient of its own. */
export function patientIds({ statement }: Connection): string[] {
  return statement<{ id: string }>(`SELECT id FROM patient WHERE NOT ${IS_JOINED} ORDER BY id`)
    .all()
    .map((row) => row.id)
}

/** The ids of those who are followed. */
export function followedPatientIds({ statement }: Connection): string[] {
  return statement<{ id: string }>(`SELECT id FROM patient WHERE status = 'followed' AND NOT ${IS_JOINED} ORDER BY id`)
    .all()
    .map((row) => row.id)
}

const BY_ID =
  'SELECT id, family_name, given_name, birth_date, sex, weight_kg, clinician, status, status_on, revision, version FROM patient WHERE id = ?'

/** The patient, or null where nobody has this id. */
export function patientOf({ statement }: Connection, id: string): StoredPatient | null {
  const row = statement<StoredPatientColumns>(BY_ID).get(id)
  return row === undefined ? null : storedPatient(row)
}
