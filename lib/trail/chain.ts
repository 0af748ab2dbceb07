import { createHash } from 'node:crypto'
import { aboutOf } from './about.ts'
import { canonicalJson, canonicalRow } from './canonical.ts'
import type { Actor, TrailEvent } from './event.ts'
import type { TrailRow } from './row.ts'

/** What stands before the first row. */
export const FIRST_PREVIOUS = '0'.repeat(64)

/** The last row of the log: its number and its hash. */
export interface TrailHead {
  readonly sequence: number
  readonly hash: string
}

export const NO_HEAD: TrailHead = { sequence: 0, hash: FIRST_PREVIOUS }

/** SHA-256 (hexadecimal) over the hash before and the row's canonical text. */
export function chainHash(previous: string, row: Omit<TrailRow, 'previousHash' | 'hash'>): string {
  return createHash('sha256').update(previous).update('\n').update(canonicalRow(row)).digest('hex')
}

/** The row that follows `head` for an event by `actor` at `at` (UTC, ISO 8601). */
export function nextRow(head: TrailHead, call: { readonly actor: Actor; readonly now: string }, event: TrailEvent): TrailRow {
  const row = {
    sequence: head.sequence + 1,
    at: call.now,
    actor: call.actor.name,
    role: call.actor.role,
    sessionHash: call.actor.sessionHash,
    address: call.actor.address,
    action: event.action,
    ...aboutOf(event),
    requestId: call.actor.requestId,
    event: canonicalJson(event),
  }
  return { ...row, previousHash: head.hash, hash: chainHash(head.hash, row) }
}

/** Does this row follow `head` unchanged? */
export function follows(head: TrailHead, row: TrailRow): boolean {
  return row.sequence === head.sequence + 1 && row.previousHash === head.hash && row.hash === chainHash(head.hash, row)
}

/**
 * The sequence number at which the log first does not fit, or null when all of it does. A changed row is named itself; a removed row by the number
 * that is missing. A tail that was cut off cannot show: compare the head with one kept elsewhere. `before` is what the first row follows.
 */
export function verifyChain(rows: Iterable<TrailRow>, before: TrailHead = NO_HEAD): number | null {
  let head = before
  for (const row of rows) {
    if (!follows(head, row)) return head.sequence + 1
    head = row
  }
  return null
}
