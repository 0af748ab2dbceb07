import type { Connection } from '../connection.ts'
import { PATIENT_COLUMNS, type StoredPatient, type StoredPatientColumns, storedPatient } from '../rows/patient.ts'
import { listSql, listText, rowsIn } from './lists.ts'
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

/** What is asked of a patient. */
export const STORED_PATIENT = [...PATIENT_COLUMNS, 'revision', 'version'] as const satisfies readonly (keyof StoredPatientColumns)[]

const BY_ID = { columns: STORED_PATIENT, rows: (patientId: string) => `patient WHERE id = ${patientId}` }

/** The patient, or null where nobody has this id. */
export function patientOf({ statement }: Connection, id: string): StoredPatient | null {
  const row = statement<StoredPatientColumns>(listSql(BY_ID)).get(id)
  return row === undefined ? null : storedPatient(row)
}

const BY_IDS = `SELECT ${listText(BY_ID, 'told.value')} AS found FROM json_each(?) AS told`

/** Those of some ids that are somebody's, by id. */
export function patientsOf({ statement }: Connection, ids: readonly string[]): ReadonlyMap<string, StoredPatient> {
  const found = ids.length === 0 ? [] : statement<{ found: string | null }>(BY_IDS).all(JSON.stringify(ids))
  return new Map(found.flatMap((one) => rowsIn<StoredPatientColumns>(one.found).map((row) => [row.id, storedPatient(row)] as const)))
}
