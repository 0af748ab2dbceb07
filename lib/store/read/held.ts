import { z } from 'zod'
import type { HeldNotice } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import { AMONG } from './amongPatients.ts'
import { listSql } from './lists.ts'

export type FileKind = 'patients' | 'course' | 'results'

/** A row in the held queue, with the decision where one was taken. */
export interface HeldRow {
  readonly id: number
  readonly fileId: number
  readonly fileName: string
  /** Who sent the file; null where nobody said. */
  readonly source: string | null
  readonly line: number
  readonly kind: FileKind
  readonly patientId: string | null
  readonly reason: string
  readonly sentence: string
  /** The row as received. */
  readonly row: string
  /** The same by the header's names. */
  readonly fields: Readonly<Record<string, string>>
  readonly receivedAt: string
  readonly receivedOn: Day
  readonly collectedOn: Day | null
  readonly resolved: { readonly at: string; readonly by: string; readonly decision: 'file' | 'refuse'; readonly reason: string } | null
  /** What a person decided that single columns of this row mean; null where nobody did. */
  readonly decided: Readonly<Record<string, string>> | null
  /** The mapping whose revocation put it into the queue again; null for a row that intake held. */
  readonly returnedBy: number | null
}

interface Row {
  readonly id: number
  readonly file_id: number
  readonly file_name: string
  readonly source: string | null
  readonly line: number
  readonly kind: string
  readonly patient_id: string | null
  readonly reason: string
  readonly sentence: string
  readonly row: string
  readonly fields: string
  readonly received_at: string
  readonly received_on: string
  readonly collected_on: string | null
  readonly resolved_at: string | null
  readonly resolved_by: string | null
  readonly decision: string | null
  readonly decision_reason: string | null
  readonly decided: string | null
  readonly returned_by: number | null
}

const FIELDS = z.record(z.string(), z.string())

function heldRowOf(row: Row): HeldRow {
  const { resolved_at: at, resolved_by: by, decision, decision_reason: reason } = row
  return {
    id: row.id,
    fileId: row.file_id,
    fileName: row.file_name,
    source: row.source,
    line: row.line,
    kind: row.kind as FileKind,
    patientId: row.patient_id,
    reason: row.reason,
    sentence: row.sentence,
    row: row.row,
    fields: FIELDS.parse(JSON.parse(row.fields)),
    receivedAt: row.received_at,
    receivedOn: row.received_on as Day,
    collectedOn: row.collected_on as Day | null,
    resolved: at === null || by === null || decision === null || reason === null ? null : { at, by, decision: decision as 'file' | 'refuse', reason },
    decided: row.decided === null ? null : FIELDS.parse(JSON.parse(row.decided)),
    returnedBy: row.returned_by,
  }
}

const SELECT =
  'SELECT held_row.*, intake_file.name AS file_name, intake_file.source FROM held_row JOIN intake_file ON intake_file.id = held_row.file_id'

/** The rows of a patient nobody has decided on. */
export const NOTICES = {
  columns: ['id', 'received_on', 'collected_on'],
  rows: (patientId: string) => `held_row WHERE patient_id = ${patientId} AND resolved_at IS NULL ORDER BY received_at, id`,
} as const

export type NoticeRow = Pick<Row, (typeof NOTICES.columns)[number]>

/** Such rows, as the rules ask about them. */
export function heldNotices({ statement }: Connection, patientId: string): HeldNotice[] {
  return statement<NoticeRow>(listSql(NOTICES)).all(patientId).map(noticeOf)
}

/** Such a row, as the rules ask about it. */
export function noticeOf({ id, received_on: receivedOn, collected_on: collectedOn }: NoticeRow): HeldNotice {
  return { id, receivedOn: receivedOn as Day, collectedOn: collectedOn as Day | null }
}

const CORRECTIONS_WAITING = `${SELECT} WHERE ${AMONG} AND resolved_at IS NULL AND reason = 'correction-before-original'
  ORDER BY held_row.received_at, held_row.id`

/** The corrections of these patients that came before their original and nobody has decided on, longest waiting first. */
export function correctionsWaiting({ statement }: Connection, patientIds: readonly string[]): HeldRow[] {
  return statement<Row>(CORRECTIONS_WAITING).all(JSON.stringify(patientIds)).map(heldRowOf)
}

/** The whole queue, longest waiting first. */
export function heldQueue({ statement }: Connection): HeldRow[] {
  return statement<Row>(`${SELECT} WHERE resolved_at IS NULL ORDER BY held_row.received_at, held_row.id`).all().map(heldRowOf)
}

/** The rows a source sent that nobody has decided on, longest waiting first, at most so many. */
export function heldRowsOfSource({ statement }: Connection, source: string, count: number): HeldRow[] {
  const sql = `${SELECT} WHERE resolved_at IS NULL AND intake_file.source = ? ORDER BY held_row.received_at, held_row.id LIMIT ?`
  return statement<Row>(sql).all(source, count).map(heldRowOf)
}

/** The rows of a file that intake held, decided since or not, in its order. */
export function heldRowsOfFile({ statement }: Connection, fileId: number): HeldRow[] {
  return statement<Row>(`${SELECT} WHERE file_id = ? AND returned_by IS NULL ORDER BY line, held_row.id`).all(fileId).map(heldRowOf)
}

/** One held row, decided or not; null where the number is nobody's. */
export function heldRowById({ statement }: Connection, id: number): HeldRow | null {
  const row = statement<Row>(`${SELECT} WHERE held_row.id = ?`).get(id)
  return row === undefined ? null : heldRowOf(row)
}

/** Every held row of one place of a file, those a revoked mapping returned too, the latest first. */
export function heldRowsAt({ statement }: Connection, fileId: number, line: number): HeldRow[] {
  return statement<Row>(`${SELECT} WHERE file_id = ? AND line = ? ORDER BY held_row.id DESC`).all(fileId, line).map(heldRowOf)
}
