import type { Connection } from '../connection.ts'
import type { MappedRow } from '../read/sources.ts'
import { insertSql } from './insert.ts'

/** A version that is taken back with its mapping. */
export interface TakenBack {
  readonly kind: 'results' | 'course'
  /** The number of the version. */
  readonly id: number
  readonly mappingId: number
  readonly by: string
  readonly at: string
}

const TAKEN = insertSql('version_taken_back', ['result_id', 'course_event_id', 'mapping_id', 'taken_by', 'taken_at'])

/** Lets a version count for nothing from now on; it stays stored. Which other version counts now is the caller's to say. */
export function takeVersionBack({ statement }: Connection, { kind, id, mappingId, by, at }: TakenBack): void {
  const isResult = kind === 'results'
  statement(TAKEN).run(isResult ? id : null, isResult ? null : id, mappingId, by, at)
  statement(`UPDATE ${isResult ? 'result' : 'course_event'} SET current = 0 WHERE id = ?`).run(id)
}

const RETURN = 'INSERT INTO mapping_return (mapping_id, file_id, line, patient_id) VALUES (?, ?, ?, ?)'

/** Keeps that a row of a revoked mapping was taken back. */
export function insertMappingReturn({ statement }: Connection, mappingId: number, { fileId, line, patientId }: MappedRow): void {
  statement(RETURN).run(mappingId, fileId, line, patientId)
}

const OF = { results: ['result_id', 'result'], course: ['course_event_id', 'course_event'] } as const

/** A row that only repeated a stored version. */
export interface NewRepeat {
  readonly versionId: number
  readonly line: number
}

/**
 * Keeps that rows of a file about one patient only repeated stored versions, of those versions that were read with a mapping; nothing for any other version.
 */
export function insertRepeats(
  { statement }: Connection,
  kind: 'results' | 'course',
  { fileId, patientId }: { readonly fileId: number; readonly patientId: string },
  repeats: readonly NewRepeat[],
): void {
  const [column, table] = OF[kind]
  const insert = `INSERT INTO mapped_repeat (${column}, file_id, line) SELECT stored.id, ?, CAST(json_extract(told.value, '$.line') AS bigint)
    FROM json_each(?) AS told JOIN ${table} AS stored ON stored.id = CAST(json_extract(told.value, '$.versionId') AS bigint)
    WHERE stored.patient_id = ? AND EXISTS (SELECT 1 FROM mapping_use WHERE mapping_use.file_id = stored.file_id AND mapping_use.line = stored.line)`
  const told = repeats.map(({ versionId, line }) => ({ versionId, line }))
  if (told.length > 0) statement(insert).run(fileId, JSON.stringify(told), patientId)
}
