import { NO_HEAD, type TrailEvent, type TrailHead, type TrailRow, verifyChain } from '../../trail/index.ts'
import type { Connection } from '../connection.ts'
import { inSnapshot } from './snapshot.ts'

const FIELDS = `sequence, at, actor, role, session_hash AS sessionHash, address, action, outcome, purpose, patient_id AS patientId, object,
  object_version AS objectVersion, request_id AS requestId, before_hash AS beforeHash, after_hash AS afterHash, event, previous_hash AS previousHash, hash`

/** The last row of the log; number 0 and 64 zeros where the log is empty. */
export function trailHead({ statement }: Connection): TrailHead {
  return statement<TrailHead>('SELECT sequence, hash FROM trail ORDER BY sequence DESC LIMIT 1').get() ?? NO_HEAD
}

/** What checking the whole log found. */
export interface TrailCheck {
  readonly rows: number
  /** The first sequence number that does not fit; null when all do. */
  readonly firstBad: number | null
  readonly head: TrailHead
}

/** Checks every row of the log against the chain, one row in memory at a time. */
export function verifyTrail(connection: Connection): TrailCheck {
  return inSnapshot(connection, () => {
    const rows = connection.statement<{ rows: number }>('SELECT count(*) AS rows FROM trail').get()?.rows ?? 0
    // A statement that is being stepped through cannot run twice at once, so this one is prepared afresh.
    const all = connection.db.prepare<[], TrailRow>(`SELECT ${FIELDS} FROM trail ORDER BY sequence`)
    return { rows, firstBad: verifyChain(all.iterate()), head: trailHead(connection) }
  })
}

/** Which rows of the log to read. */
export interface TrailQuery {
  /** Only this person's rows; null for everybody's. */
  readonly actor: string | null
  readonly limit: number
  readonly offset: number
}

/** A row of the log with its event read. */
export type ReadTrailRow = Omit<TrailRow, 'event'> & { readonly event: TrailEvent }

/** A page of the log, latest first, and how many rows there are on all its pages. */
export function trailPage(connection: Connection, { actor, limit, offset }: TrailQuery): { rows: ReadTrailRow[]; total: number } {
  const where = actor === null ? '' : 'WHERE actor = ?'
  const whose = actor === null ? [] : [actor]
  return inSnapshot(connection, () => {
    const rows = connection
      .statement<TrailRow>(`SELECT ${FIELDS} FROM trail ${where} ORDER BY sequence DESC LIMIT ? OFFSET ?`)
      .all(...whose, limit, offset)
    const total = connection.statement<{ total: number }>(`SELECT count(*) AS total FROM trail ${where}`).get(...whose)?.total ?? 0
    return { rows: rows.map((row) => ({ ...row, event: JSON.parse(row.event) as TrailEvent })), total }
  })
}
