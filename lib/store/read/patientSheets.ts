import type { Connection } from '../connection.ts'

/** A released sheet as stored. Times are UTC, ISO 8601. */
export interface StoredSheet {
  readonly id: number
  readonly patientId: string
  /** The revision of the history it was made from. */
  readonly revision: number
  /** The records that were read as this patient then, the kept one first. */
  readonly recordIds: readonly string[]
  /** The sheet as JSON, as it was released. */
  readonly content: string
  /** SHA-256 of `content`. */
  readonly contentSha256: string
  readonly releasedBy: string
  readonly releasedAt: string
  readonly withdrawnBy: string | null
  readonly withdrawnAt: string | null
  readonly withdrawalReason: string | null
}

type Row = Omit<StoredSheet, 'recordIds'> & { readonly recordIds: string }

const SELECT = `SELECT id, patient_id AS patientId, revision, record_ids AS recordIds, content, content_sha256 AS contentSha256,
  released_by AS releasedBy, released_at AS releasedAt, withdrawn_by AS withdrawnBy, withdrawn_at AS withdrawnAt,
  withdrawal_reason AS withdrawalReason FROM patient_sheet`

const sheetOf = (row: Row): StoredSheet => ({ ...row, recordIds: JSON.parse(row.recordIds) as string[] })

/** One sheet; null where the number is nobody's. */
export function sheetById({ statement }: Connection, id: number): StoredSheet | null {
  const row = statement<Row>(`${SELECT} WHERE id = ?`).get(id)
  return row === undefined ? null : sheetOf(row)
}

/** Every sheet released for these records, first one first. */
export function sheetsOf({ statement }: Connection, recordIds: readonly string[]): StoredSheet[] {
  return statement<Row>(`${SELECT} WHERE patient_id IN (SELECT value FROM json_each(?)) ORDER BY id`).all(JSON.stringify(recordIds)).map(sheetOf)
}
