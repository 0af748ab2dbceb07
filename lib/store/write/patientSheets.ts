import type { Connection } from '../connection.ts'
import type { StoredSheet } from '../read/patientSheets.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** A sheet to be released; the database gives it the next number. */
export type NewSheet = Omit<StoredSheet, 'id' | 'withdrawnBy' | 'withdrawnAt' | 'withdrawalReason'>

const INSERT = insertSql('patient_sheet', ['id', 'patient_id', 'revision', 'record_ids', 'content', 'content_sha256', 'released_by', 'released_at'])

/** Keeps a released sheet and returns its number. */
export function insertSheet(connection: Connection, sheet: NewSheet): number {
  const id = nextId(connection, 'patient_sheet')
  const { patientId, revision, recordIds, content, contentSha256, releasedBy, releasedAt } = sheet
  connection.statement(INSERT).run(id, patientId, revision, JSON.stringify(recordIds), content, contentSha256, releasedBy, releasedAt)
  return id
}

/** Who took a sheet back, when and why. */
export interface SheetWithdrawal {
  readonly id: number
  readonly by: string
  readonly at: string
  readonly reason: string
}

const WITHDRAW = 'UPDATE patient_sheet SET withdrawn_by = ?, withdrawn_at = ?, withdrawal_reason = ? WHERE id = ? AND withdrawn_at IS NULL'

/** Takes a sheet back. False where that was done already. */
export function withdrawSheet({ statement }: Connection, { id, by, at, reason }: SheetWithdrawal): boolean {
  return statement(WITHDRAW).run(by, at, reason, id).changes === 1
}
