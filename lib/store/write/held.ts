import type { Cell, Connection } from '../connection.ts'
import type { RefusedRow } from '../read/files.ts'
import type { HeldRow } from '../read/held.ts'
import { insertSql } from './insert.ts'

/** A row to be held until a person decides. */
export type NewHeld = Omit<HeldRow, 'id' | 'fileName' | 'source' | 'resolved' | 'decided' | 'returnedBy'>

const COLUMNS = ['file_id', 'line', 'kind', 'patient_id', 'reason', 'sentence', 'row', 'fields', 'received_at', 'received_on', 'collected_on']

function cellsOf(held: NewHeld): Cell[] {
  const { fileId, line, kind, patientId, reason, sentence, row, fields, receivedAt, receivedOn, collectedOn } = held
  return [fileId, line, kind, patientId, reason, sentence, row, JSON.stringify(fields), receivedAt, receivedOn, collectedOn]
}

/** Puts rows into the held queue in this order and returns their numbers. */
export function insertHeld({ insertAll }: Connection, held: readonly NewHeld[]): number[] {
  return insertAll('held_row', COLUMNS, held.map(cellsOf))
}

/** Keeps refused rows with their reasons. */
export function insertRefused({ insertAll }: Connection, fileId: number, refused: readonly RefusedRow[]): void {
  const cells = refused.map(({ line, reason, sentence, row }) => [fileId, line, reason, sentence, row])
  insertAll('refused_row', ['file_id', 'line', 'reason', 'sentence', 'row'], cells)
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

/** Keeps what a person decided that columns of a row mean, beside what was decided before. The row has to wait still. */
export function setDecided({ statement }: Connection, heldId: number, decided: Readonly<Record<string, string>>): void {
  const update = "UPDATE held_row SET decided = json_patch(coalesce(decided, '{}'), ?) WHERE id = ? AND resolved_at IS NULL"
  statement(update).run(JSON.stringify(decided), heldId)
}

/** Why a row that was read afresh still waits, whose it is and of which day. */
export interface StillWaiting extends Pick<HeldRow, 'patientId' | 'reason' | 'sentence' | 'collectedOn'> {
  readonly heldId: number
}

/** Keeps why a row waits now that it was read afresh. */
export function setWaiting({ statement }: Connection, { heldId, patientId, reason, sentence, collectedOn }: StillWaiting): void {
  const update = 'UPDATE held_row SET patient_id = ?, reason = ?, sentence = ?, collected_on = ? WHERE id = ? AND resolved_at IS NULL'
  statement(update).run(patientId, reason, sentence, collectedOn, heldId)
}

const RETURNED = insertSql('held_row', [...COLUMNS, 'decided', 'returned_by'])

/** Puts a row that was filed into the queue again, because the mapping it was read with was revoked. */
export function insertReturned({ insert }: Connection, held: NewHeld & Pick<HeldRow, 'decided'>, mappingId: number): number {
  const decided = held.decided === null ? null : JSON.stringify(held.decided)
  return insert(RETURNED, ...cellsOf(held), decided, mappingId)
}
