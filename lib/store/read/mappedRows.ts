import type { SourceMapping } from '../../intake/index.ts'
import type { Connection } from '../connection.ts'
import type { MappedRow } from './sources.ts'

/** How many rows filed with a mapping are not taken back, and of how many patients. */
export interface MappingReach {
  readonly rows: number
  readonly patients: number
}

const LEFT = `FROM mapping_use LEFT JOIN mapping_return USING (mapping_id, file_id, line, patient_id)
  WHERE mapping_use.mapping_id = ? AND mapping_return.mapping_id IS NULL`

/** The rows filed with a mapping that are not taken back, all of a patient together, each patient's in the order of their files. */
export function rowsNotTakenBack({ statement }: Connection, mappingId: number): MappedRow[] {
  const columns = 'mapping_use.file_id AS fileId, mapping_use.line, mapping_use.patient_id AS patientId'
  return statement<MappedRow>(`SELECT ${columns} ${LEFT} ORDER BY patientId, fileId, line`).all(mappingId)
}

/** How many those are. */
export function mappingReach({ statement }: Connection, mappingId: number): MappingReach {
  const sql = `SELECT count(*) AS rows, count(DISTINCT mapping_use.patient_id) AS patients ${LEFT}`
  return statement<MappingReach>(sql).get(mappingId) ?? { rows: 0, patients: 0 }
}

/** A version that came from one row and is not taken back. */
export interface VersionOfRow {
  readonly id: number
  readonly identity: string
  /** As received where the row was no result: empty. */
  readonly code: string
  readonly valueText: string
  readonly unitText: string
}

const NOT_TAKEN = (column: string, table: string) => `NOT EXISTS (SELECT 1 FROM version_taken_back WHERE ${column} = ${table}.id)`
const RESULTS = `SELECT id, identity, code, value_text AS valueText, unit_text AS unitText FROM result
  WHERE patient_id = ? AND file_id = ? AND line = ? AND ${NOT_TAKEN('result_id', 'result')} ORDER BY id`
const EVENTS = `SELECT id, identity, '' AS code, '' AS valueText, '' AS unitText FROM course_event
  WHERE patient_id = ? AND file_id = ? AND line = ? AND ${NOT_TAKEN('course_event_id', 'course_event')} ORDER BY id`

/** The versions of results, or of course events, that came from one row of a file and are not taken back. */
export function versionsOfRow({ statement }: Connection, kind: 'results' | 'course', { patientId, fileId, line }: MappedRow): VersionOfRow[] {
  return statement<VersionOfRow>(kind === 'results' ? RESULTS : EVENTS).all(patientId, fileId, line)
}

/** A row that only repeated a version. */
export interface Repeat extends MappedRow {
  readonly kind: 'results' | 'course'
  readonly versionId: number
}

const REPEATED = (kind: string, table: string) => `SELECT DISTINCT '${kind}' AS kind, ${table}.id AS versionId, mapped_repeat.file_id AS fileId,
  mapped_repeat.line AS line, ${table}.patient_id AS patientId FROM mapping_use JOIN ${table} USING (file_id, line, patient_id)
  JOIN mapped_repeat ON mapped_repeat.${table}_id = ${table}.id WHERE mapping_use.mapping_id = ?`

/** The rows that only repeated what rows filed with a mapping said, in the order of their files. */
export function repeatsOfMapping({ statement }: Connection, mappingId: number): Repeat[] {
  const sql = `${REPEATED('results', 'result')} UNION ${REPEATED('course', 'course_event')} ORDER BY fileId, line`
  return statement<Repeat>(sql).all(mappingId, mappingId)
}

const COLUMN_OF = { code: 'code', unit: 'unit', patient: 'patient_id' } as const

const asReceived = (column: string) => `trim(coalesce(json_extract(held_row.fields, '$.${column}'), ''), ' \t\n\r')`

/** The held rows of a source that wait and have the text a mapping is about: what they wait for may depend on it. */
export function waitingWithText(
  { statement }: Connection,
  { source, kind, received, ofCode }: Omit<SourceMapping, 'id'> & { source: string },
): number[] {
  const sql = `SELECT held_row.id FROM held_row JOIN intake_file ON intake_file.id = held_row.file_id
    WHERE resolved_at IS NULL AND intake_file.source = ? AND ${asReceived(COLUMN_OF[kind])} = ? AND (CAST(? AS TEXT) IS NULL OR ${asReceived('code')} = ?) ORDER BY held_row.id`
  return statement<{ id: number }>(sql)
    .all(source, received, ofCode, ofCode)
    .map(({ id }) => id)
}
