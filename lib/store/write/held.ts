import type { Connection } from '../connection.ts'
import type { RefusedRow } from '../read/files.ts'
import type { HeldRow } from '../read/held.ts'
import { insertSql } from './insert.ts'

/** A row to be held until a person decides. */
export type NewHeld = Omit<HeldRow, 'id' | 'fileName' | 'source' | 'resolved'>

const HELD = insertSql('held_row', [
  'file_id',
  'line',
  'kind',
  'patient_id',
  'reason',
  'sentence',
  'row',
  'fields',
  'received_at',
  'received_on',
  'collected_on',
])

/** Puts a row into the held queue and returns its number. */
export function insertHeld({ statement }: Connection, held: NewHeld): number {
  const { fileId, line, kind, patientId, reason, sentence, row, fields, receivedAt, receivedOn, collectedOn } = held
  const cells = [fileId, line, kind, patientId, reason, sentence, row, JSON.stringify(fields), receivedAt, receivedOn, collectedOn]
  return Number(statement(HELD).run(...cells).lastInsertRowid)
}

const REFUSED = insertSql('refused_row', ['file_id', 'line', 'reason', 'sentence', 'row'])

/** Keeps a refused row with its reason. */
export function insertRefused({ statement }: Connection, fileId: number, { line, reason, sentence, row }: RefusedRow): void {
  statement(REFUSED).run(fileId, line, reason, sentence, row)
}

/** A person's decision on a held row. */
export interface Decision {
  readonly heldId: number
  readonly decision: 'file' | 'refuse'
  readonly reason: string
  readonly by: string
  readonly at: string
}

const RESOLVE = 'UPDATE held_row SET resolved_at = ?, resolved_by = ?, decision = ?, decision_reason = ? WHERE id = ? AND resolved_at IS NULL'

/** Takes a row out of the queue. False where it was not in it, so that two people cannot both decide. */
export function resolveHeld({ statement }: Connection, { heldId, decision, reason, by, at }: Decision): boolean {
  return statement(RESOLVE).run(at, by, decision, reason, heldId).changes === 1
}
