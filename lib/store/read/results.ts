import { type Correction, currentVersion } from '../../results/index.ts'
import { type Connection, wideRows } from '../connection.ts'
import { type StoredResult, storedResult } from '../rows/result.ts'
import type { ResultColumns } from '../rows/resultColumns.ts'

type Row = ResultColumns & { readonly file_name: string }

/** A stored version, and whether it was taken back: then it counts for nothing, and nothing is decided by it. */
export type StoredVersion = StoredResult & { readonly takenBack: boolean }

const SELECT = 'SELECT result.*, intake_file.name AS file_name FROM result JOIN intake_file ON intake_file.id = result.file_id'
const CURRENT = `${SELECT} WHERE patient_id = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error') ORDER BY collected_order, result.id`

/** Current versions of a patient's results that were not withdrawn, oldest first. */
export function currentResults({ statement }: Connection, patientId: string): StoredResult[] {
  return wideRows(statement<Row>(CURRENT), patientId).map(storedResult)
}

const VERSIONS = `SELECT result.*, intake_file.name AS file_name, version_taken_back.id AS taken_back FROM result
  JOIN intake_file ON intake_file.id = result.file_id LEFT JOIN version_taken_back ON version_taken_back.result_id = result.id`

type VersionRow = Row & { readonly taken_back: number | null }

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
  const row = statement<Row>(`${SELECT} WHERE result.id = ?`).get(id)
  return row === undefined ? null : storedResult(row)
}

/** The number of the version stored last, of whichever patient; 0 before the first. */
export function lastResultId({ statement }: Connection): number {
  return statement<{ last: number }>('SELECT coalesce(max(id), 0) AS last FROM result').get()?.last ?? 0
}

/** One result of a patient of which another version counts now. */
export interface StoredCorrection extends Correction {
  readonly patientId: string
}

// A result that is new since then has no earlier version: nobody could have seen what a correction beside it took the place of. NOT INDEXED: the few rows
// after a number are found by it, where the index of identities would be read from end to end.
const AGAIN = `SELECT DISTINCT identity FROM result NOT INDEXED WHERE id > ? AND version > 1
  AND EXISTS (SELECT 1 FROM result AS earlier WHERE earlier.identity = result.identity AND earlier.id <= ?) ORDER BY identity`

/** Of every result that was stored before version `resultId` was and got another one since: which counted then, which counts now; none where it is the same one. */
export function correctionsSince(connection: Connection, resultId: number): StoredCorrection[] {
  const identities = connection.statement<{ identity: string }>(AGAIN).all(resultId, resultId)
  return identities.flatMap(({ identity }) => {
    const versions = resultVersions(connection, identity).filter(({ takenBack }) => !takenBack)
    const results = versions.map(({ result }) => result)
    const [replaced, by] = [currentVersion(results.filter(({ id }) => id <= resultId)), currentVersion(results)]
    const patientId = versions[0]?.patientId
    return patientId === undefined || replaced === null || by === null || replaced.id === by.id ? [] : [{ patientId, replaced, by }]
  })
}

const NEAR = `${SELECT} WHERE patient_id = ? AND analyte = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error')`

/** What counts of one analyte of a patient just before a day (that day included) and just after it, oldest first, so many each at most. */
export function resultsAround({ statement }: Connection, patientId: string, analyte: string, on: string, each: number): StoredResult[] {
  const before = statement<Row>(`${NEAR} AND collected_on <= ? ORDER BY collected_order DESC, result.id DESC LIMIT ?`).all(
    patientId,
    analyte,
    on,
    each,
  )
  const after = statement<Row>(`${NEAR} AND collected_on > ? ORDER BY collected_order, result.id LIMIT ?`).all(patientId, analyte, on, each)
  return [...before.toReversed(), ...after].map(storedResult)
}
