import type { Connection } from '../connection.ts'

/** A proposal to read two records as one, with what became of it. Times are UTC, ISO 8601. */
export interface StoredMerge {
  readonly id: number
  /** The record that is joined to the other. */
  readonly fromId: string
  /** The record that is kept. */
  readonly intoId: string
  readonly proposedBy: string
  readonly proposedAt: string
  readonly reason: string
  /** SHA-256 of what identified both records when it was proposed. */
  readonly identitySha256: string
  readonly decision: 'confirmed' | 'declined' | null
  readonly decidedBy: string | null
  readonly decidedAt: string | null
  readonly decisionReason: string | null
  readonly endedBy: string | null
  readonly endedAt: string | null
  readonly endReason: string | null
}

const SELECT = `SELECT id, from_id AS fromId, into_id AS intoId, proposed_by AS proposedBy, proposed_at AS proposedAt, reason,
  identity_sha256 AS identitySha256, decision, decided_by AS decidedBy, decided_at AS decidedAt, decision_reason AS decisionReason,
  ended_by AS endedBy, ended_at AS endedAt, end_reason AS endReason FROM patient_merge`

const IN_FORCE = "decision = 'confirmed' AND ended_at IS NULL"

/** For a query over `patient`: those whose record is joined to another, and so is nobody of its own. */
export const IS_JOINED = `EXISTS (SELECT 1 FROM patient_merge WHERE from_id = patient.id AND ${IN_FORCE})`

/** Whether any two records are read as one today. */
export function hasMerges({ statement }: Connection): boolean {
  return statement<{ found: 1 }>(`SELECT 1 AS found FROM patient_merge WHERE ${IN_FORCE} LIMIT 1`).get() !== undefined
}

/** Every merge ever proposed, first one first. */
export function merges({ statement }: Connection): StoredMerge[] {
  return statement<StoredMerge>(`${SELECT} ORDER BY id`).all()
}

/** One merge; null where the number is nobody's. */
export function mergeById({ statement }: Connection, id: number): StoredMerge | null {
  return statement<StoredMerge>(`${SELECT} WHERE id = ?`).get(id) ?? null
}

/** Every merge a record is or was part of, either way round, first one first. */
export function mergesOf({ statement }: Connection, patientId: string): StoredMerge[] {
  return statement<StoredMerge>(`${SELECT} WHERE from_id = ? OR into_id = ? ORDER BY id`).all(patientId, patientId)
}

/** For a query over `patient`: whether other records are read as part of theirs. */
export const HAS_JOINED = `EXISTS (SELECT 1 FROM patient_merge WHERE into_id = patient.id AND ${IN_FORCE})`

const joinedTo = (id: string): string => `SELECT into_id AS intoId FROM patient_merge WHERE from_id = ${id} AND ${IN_FORCE}`

/** Asks for the record the one of this number is joined to; no row where it is joined to none. */
export const KEPT_ID = joinedTo('?')

/** For a query over `table`: the record each row's patient is read as today. One answer for all of them: on a server each question is a journey. */
export function keptIdIn(table: string): string {
  return `coalesce((${joinedTo(`${table}.patient_id`)}), ${table}.patient_id)`
}

/** The record a patient is read as today: the one theirs is joined to, else their own. */
export function keptIdOf({ statement }: Connection, patientId: string): string {
  return statement<{ intoId: string }>(KEPT_ID).get(patientId)?.intoId ?? patientId
}

/** The records that are read as part of this one, in the order they were joined. */
export function joinedIds({ statement }: Connection, patientId: string): string[] {
  const sql = `SELECT from_id AS fromId FROM patient_merge WHERE into_id = ? AND ${IN_FORCE} ORDER BY id`
  return statement<{ fromId: string }>(sql)
    .all(patientId)
    .map(({ fromId }) => fromId)
}
