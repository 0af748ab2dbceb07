import type { Connection } from '../connection.ts'
import type { StoredEmergency } from '../read/emergencyViews.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** An emergency view to be opened; the database gives it the next number. */
export type NewEmergency = Pick<StoredEmergency, 'openedBy' | 'sessionHash' | 'patientId' | 'reason' | 'fromAt' | 'untilAt'>

const INSERT = insertSql('emergency_view', ['id', 'opened_by', 'session_hash', 'patient_id', 'reason', 'from_at', 'until_at'])

/** Keeps an emergency view and returns its number. */
export function insertEmergency(connection: Connection, view: NewEmergency): number {
  const id = nextId(connection, 'emergency_view')
  connection.statement(INSERT).run(id, view.openedBy, view.sessionHash, view.patientId, view.reason, view.fromAt, view.untilAt)
  return id
}

/** Ends a view before its time. False where it was ended already. */
export function endEmergency({ statement }: Connection, id: number, at: string): boolean {
  return statement('UPDATE emergency_view SET ended_at = ? WHERE id = ? AND ended_at IS NULL').run(at, id).changes === 1
}

/** Who acknowledged a view, when, and what they noted. */
export interface Acknowledgement {
  readonly id: number
  readonly by: string
  readonly at: string
  readonly note: string | null
}

const ACKNOWLEDGE = 'UPDATE emergency_view SET acknowledged_by = ?, acknowledged_at = ?, note = ? WHERE id = ? AND acknowledged_at IS NULL'

/** Keeps an acknowledgement. False where the view was acknowledged already. Throws where it is of whoever opened it. */
export function acknowledgeEmergency({ statement }: Connection, { id, by, at, note }: Acknowledgement): boolean {
  return statement(ACKNOWLEDGE).run(by, at, note, id).changes === 1
}
