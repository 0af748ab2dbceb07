import type { Connection } from '../connection.ts'
import { type StoredResult, storedResult } from '../rows/result.ts'
import { RESULT_COLUMNS, type ResultColumns } from '../rows/resultColumns.ts'
import { listText, rowsIn } from './lists.ts'

export type ResultRow = ResultColumns & { readonly file_name: string }

/** A stored version, and whether it was taken back: then it counts for nothing, and nothing is decided by it. */
export type StoredVersion = StoredResult & { readonly takenBack: boolean }

/** Stored versions with the names of their files. */
export const SELECT_RESULTS = 'SELECT result.*, intake_file.name AS file_name FROM result JOIN intake_file ON intake_file.id = result.file_id'
const CURRENT = `${SELECT_RESULTS} WHERE patient_id = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error') ORDER BY collected_order, result.id`

/** Current versions of a patient's results that were not withdrawn, oldest first. */
export function currentResults({ wideRows }: Connection, patientId: string): StoredResult[] {
  return wideRows<ResultRow>(CURRENT, patientId).map(storedResult)
}

const VERSIONS = `SELECT result.*, intake_file.name AS file_name, version_taken_back.id AS taken_back FROM result
  JOIN intake_file ON intake_file.id = result.file_id LEFT JOIN version_taken_back ON version_taken_back.result_id = result.id`

type VersionRow = ResultRow & { readonly taken_back: number | null }

const storedVersion = (row: VersionRow): StoredVersion => ({ ...storedResult(row), takenBack: row.taken_back !== null })

/** Every stored version of one result, first report first. */
export function resultVersions({ statement }: Connection, identity: string): StoredVersion[] {
  return statement<VersionRow>(`${VERSIONS} WHERE identity = ? ORDER BY version`).all(identity).map(storedVersion)
}

// The patient is said for a server, which then looks into one partition; a file finds the few by their identities.
const OF_IDENTITY = {
  columns: ['id', ...RESULT_COLUMNS, 'file_name', 'taken_back'],
  rows: (identity: string) => `(${VERSIONS} WHERE +result.patient_id = ? AND identity = ${identity}) AS of_identity ORDER BY version`,
}
const VERSIONS_OF = `SELECT told.value AS identity, ${listText(OF_IDENTITY, 'told.value')} AS versions FROM json_each(?) AS told`

/** Every stored version of some results of one patient, by identity, first report first; nothing of an identity of which none is stored. */
export function versionsOfEach(
  { statement }: Connection,
  patientId: string,
  identities: readonly string[],
): ReadonlyMap<string, readonly StoredVersion[]> {
  const found = new Map<string, readonly StoredVersion[]>()
  for (const { identity, versions } of statement<{ identity: string; versions: string | null }>(VERSIONS_OF).all(
    patientId,
    JSON.stringify(identities),
  )) {
    const rows = rowsIn<VersionRow>(versions)
    if (rows.length > 0) found.set(identity, rows.map(storedVersion))
  }
  return found
}

// LIMIT: answered for each by itself, by an index, where a join might read every result there is.
const WITH_RESULTS = `SELECT told.value AS id FROM json_each(?) AS told
  WHERE (SELECT 1 FROM result WHERE result.patient_id = told.value LIMIT 1) IS NOT NULL`

/** Those of some patients of whom any version of any result is stored. */
export function withResults({ statement }: Connection, patientIds: readonly string[]): ReadonlySet<string> {
  return new Set(
    statement<{ id: string }>(WITH_RESULTS)
      .all(JSON.stringify(patientIds))
      .map(({ id }) => id),
  )
}

/** Every stored version of every result of a patient, by identity and then version. */
export function patientResultVersions({ wideRows }: Connection, patientId: string): StoredVersion[] {
  return wideRows<VersionRow>(`${VERSIONS} WHERE patient_id = ? ORDER BY identity, version`, patientId).map(storedVersion)
}

/** A version that no longer counts because a later one of the same result does, and that later one. */
export interface ReplacedVersion {
  readonly result: StoredResult['result']
  readonly replacedBy: { readonly id: number; readonly withdrawn: boolean }
}

const REPLACED = `SELECT result.*, intake_file.name AS file_name, now.id AS now_id, now.status AS now_status FROM result
  JOIN intake_file ON intake_file.id = result.file_id JOIN result AS now ON now.identity = result.identity AND now.current = 1
  WHERE result.patient_id = ? AND result.current = 0 AND NOT EXISTS (SELECT 1 FROM version_taken_back WHERE result_id = result.id)
  ORDER BY result.identity, result.version`

/** Versions of a patient's results that a later version has replaced, but for those taken back with their mapping. */
export function replacedVersions({ statement }: Connection, patientId: string): ReplacedVersion[] {
  return statement<ResultRow & { readonly now_id: number; readonly now_status: string }>(REPLACED)
    .all(patientId)
    .map((row) => ({
      result: storedResult(row).result,
      replacedBy: { id: row.now_id, withdrawn: row.now_status === 'cancelled' || row.now_status === 'entered-in-error' },
    }))
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
