import type { Connection } from '../connection.ts'
import { type StoredResult, storedResult } from '../rows/result.ts'
import type { ResultColumns } from '../rows/resultColumns.ts'

type Row = ResultColumns & { readonly file_name: string }

const SELECT = 'SELECT result.*, intake_file.name AS file_name FROM result JOIN intake_file ON intake_file.id = result.file_id'
const CURRENT = `${SELECT} WHERE patient_id = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error') ORDER BY collected_order, result.id`

/** Current versions of a patient's results that were not withdrawn, oldest first. */
export function currentResults({ statement }: Connection, patientId: string): StoredResult[] {
  return statement<Row>(CURRENT).all(patientId).map(storedResult)
}

/** Every stored version of one result, first report first. */
export function resultVersions({ statement }: Connection, identity: string): StoredResult[] {
  return statement<Row>(`${SELECT} WHERE identity = ? ORDER BY version`).all(identity).map(storedResult)
}

/** Every stored version of every result of a patient, by identity and then version. */
export function patientResultVersions({ statement }: Connection, patientId: string): StoredResult[] {
  return statement<Row>(`${SELECT} WHERE patient_id = ? ORDER BY identity, version`).all(patientId).map(storedResult)
}

/** One stored version by its number, or null. */
export function resultById({ statement }: Connection, id: number): StoredResult | null {
  const row = statement<Row>(`${SELECT} WHERE result.id = ?`).get(id)
  return row === undefined ? null : storedResult(row)
}
