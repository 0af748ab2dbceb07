import { type Connection, wideRows } from '../connection.ts'
import { type StoredResult, storedResult } from '../rows/result.ts'
import type { ResultColumns } from '../rows/resultColumns.ts'

export type ResultRow = ResultColumns & { readonly file_name: string }

/** A stored version, and whether it was taken back: then it counts for nothing, and nothing is decided by it. */
export type StoredVersion = StoredResult & { readonly takenBack: boolean }

/** Stored versions with the names of their files. */
export const SELECT_RESULTS = 'SELECT result.*, intake_file.name AS file_name FROM result JOIN intake_file ON intake_file.id = result.file_id'
const CURRENT = `${SELECT_RESULTS} WHERE patient_id = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error') ORDER BY collected_order, result.id`

/** Current versions of a patient's results that were not withdrawn, oldest first. */
export function currentResults({ statement }: Connection, patientId: string): StoredResult[] {
  return wideRows(statement<ResultRow>(CURRENT), patientId).map(storedResult)
}

const VERSIONS = `SELECT result.*, intake_file.name AS file_name, version_taken_back.id AS taken_back FROM result
  JOIN intake_file ON intake_file.id = result.file_id LEFT JOIN version_taken_back ON version_taken_back.result_id = result.id`

type VersionRow = ResultRow & { readonly taken_back: number | null }

const storedVersion = (row: VersionRow): StoredVersion => ({ ...storedResult(row), takenBack: row.taken_back !== null })

/** Every stored version of one result, first report first. */
export function resultVersions({ statement }: Connection, identity: string): StoredVersion[] {
  return statement<VersionRow>(`${VERSIONS} WHERE identity = ? ORDER BY version`).all(identity).map(storedVersion)
}

/** Every stored version of every result of a patient, by identity and then version. */
export function patientResultVersions({ statement }: Connection, patientId: string): StoredVersion[] {
  return wideRows(statement<VersionRow>(`${VERSIONS} WHERE patient_id = ? ORDER BY identity, version`), patientId).map(storedVersion)
}

/** One stored version by its number, or null. */
export function resultById({ statement }: Connection, id: number): StoredResult | null {
  const row = statement<ResultRow>(`${SELECT_RESULTS} WHERE result.id = ?`).get(id)
  return row === undefined ? null : storedResult(row)
}

/** The number of the version stored last, of whichever patient; 0 before the first. */
export function lastResultId({ statement }: Connection): number {
  return statement<{ last: number }>('SELECT coalesce(max(id), 0) AS last FROM result').get()?.last ?? 0
}
