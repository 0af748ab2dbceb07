import type { Connection } from '../connection.ts'
import type { ReadTrailRow } from './trail.ts'

/** An emergency view as stored. Times are UTC, ISO 8601. */
export interface StoredEmergency {
  readonly id: number
  readonly openedBy: string
  /** SHA-256 of what the browser of that session holds. */
  readonly sessionHash: string
  readonly patientId: string
  readonly reason: string
  readonly fromAt: string
  /** The first moment it does not run. */
  readonly untilAt: string
  /** When its physician ended it; null where it ran out, or runs. */
  readonly endedAt: string | null
  readonly acknowledgedBy: string | null
  readonly acknowledgedAt: string | null
  readonly note: string | null
}

const SELECT = `SELECT id, opened_by AS openedBy, session_hash AS sessionHash, patient_id AS patientId, reason, from_at AS fromAt, until_at AS untilAt,
  ended_at AS endedAt, acknowledged_by AS acknowledgedBy, acknowledged_at AS acknowledgedAt, note FROM emergency_view`

/** One emergency view; null where the number is nobody's. */
export function emergencyById({ statement }: Connection, id: number): StoredEmergency | null {
  return statement<StoredEmergency>(`${SELECT} WHERE id = ?`).get(id) ?? null
}

/** Views of one person in one session that were not ended by hand; whether they still run is for the caller to say. */
export function emergenciesOfSession({ statement }: Connection, openedBy: string, sessionHash: string): StoredEmergency[] {
  return statement<StoredEmergency>(`${SELECT} WHERE opened_by = ? AND session_hash = ? AND ended_at IS NULL ORDER BY id`).all(openedBy, sessionHash)
}

/** Views nobody acknowledged, oldest first. */
export function emergenciesWaiting({ statement }: Connection): StoredEmergency[] {
  return statement<StoredEmergency>(`${SELECT} WHERE acknowledged_at IS NULL ORDER BY id`).all()
}

/** How many views nobody acknowledged. */
export function countEmergenciesWaiting({ statement }: Connection): number {
  return statement<{ waiting: number }>('SELECT count(*) AS waiting FROM emergency_view WHERE acknowledged_at IS NULL').get()?.waiting ?? 0
}

/** Views that were acknowledged, latest first. */
export function emergenciesAcknowledged({ statement }: Connection, count: number): StoredEmergency[] {
  return statement<StoredEmergency>(`${SELECT} WHERE acknowledged_at IS NOT NULL ORDER BY id DESC LIMIT ?`).all(count)
}

/** The entries of the log that tell of a page or a sheet opened in an emergency view, oldest first. */
export function openedInEmergency({ statement }: Connection, emergencyId: number): Pick<ReadTrailRow, 'sequence' | 'at'>[] {
  const sql =
    "SELECT sequence, at FROM trail WHERE json_extract(event, '$.emergencyId') = ? AND action IN ('patient-opened', 'sheet-opened', 'sheet-printed') ORDER BY sequence"
  return statement<Pick<ReadTrailRow, 'sequence' | 'at'>>(sql).all(emergencyId)
}
