import type { Connection } from '../connection.ts'
import type { StoredMerge } from '../read/merges.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

/** A merge to be proposed; the database gives it the next number. */
export type NewMerge = Pick<StoredMerge, 'fromId' | 'intoId' | 'proposedBy' | 'proposedAt' | 'reason' | 'identitySha256'>

const INSERT = insertSql('patient_merge', ['id', 'from_id', 'into_id', 'proposed_by', 'proposed_at', 'reason', 'identity_sha256'])

/** Keeps a proposal and returns its number. Throws where the same two records wait already. */
export function insertMerge(connection: Connection, { fromId, intoId, proposedBy, proposedAt, reason, identitySha256 }: NewMerge): number {
  const id = nextId(connection, 'patient_merge')
  connection.statement(INSERT).run(id, fromId, intoId, proposedBy, proposedAt, reason, identitySha256)
  return id
}

/** What somebody decided about a merge that waits. The reason is for declining, and may be left out there. */
export interface MergeDecision {
  readonly id: number
  readonly decision: 'confirmed' | 'declined'
  readonly by: string
  readonly at: string
  readonly reason: string | null
}

const DECIDE = 'UPDATE patient_merge SET decision = ?, decided_by = ?, decided_at = ?, decision_reason = ? WHERE id = ? AND decision IS NULL'

/** Decides on a merge. False where it was decided on already. Throws where it would make a chain, or the proposer confirms. */
export function decideMerge({ statement }: Connection, { id, decision, by, at, reason }: MergeDecision): boolean {
  return statement(DECIDE).run(decision, by, at, reason, id).changes === 1
}

/** The end of a merge in force. */
export interface MergeEnd {
  readonly id: number
  readonly by: string
  readonly at: string
  readonly reason: string
}

const END = "UPDATE patient_merge SET ended_by = ?, ended_at = ?, end_reason = ? WHERE id = ? AND decision = 'confirmed' AND ended_at IS NULL"

/** Ends a merge. False where it is not in force. */
export function endMerge({ statement }: Connection, { id, by, at, reason }: MergeEnd): boolean {
  return statement(END).run(by, at, reason, id).changes === 1
}
