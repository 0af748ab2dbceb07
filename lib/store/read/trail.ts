import { NO_HEAD, type TrailEvent, type TrailHead, type TrailRow, verifyChain } from '../../trail/index.ts'
import type { Connection } from '../connection.ts'
import { firstBadRange, logRanges, retiredHead } from './logRanges.ts'

export const TRAIL_FIELDS = `sequence, at, actor, role, session_hash AS sessionHash, address, action, outcome, purpose, patient_id AS patientId, object,
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

const TOLD_EVERY = 100_000

function* counting(rows: Iterable<TrailRow>, told: (done: number) => void): Iterable<TrailRow> {
  let done = 0
  for (const row of rows) {
    yield row
    done += 1
    if (done % TOLD_EVERY === 0) told(done)
  }
}

/**
 * Checks every row of the log against the chain, one row in memory at a time. Where the oldest rows were retired it begins after them, and asks that
 * what is kept of them is what the log itself says. `onRows` hears how far it is.
 */
export function verifyTrail(connection: Connection, onRows: (done: number, of: number) => void = () => undefined): TrailCheck {
  return connection.snapshot(() => {
    const rows = connection.statement<{ rows: number }>('SELECT count(*) AS rows FROM trail').get()?.rows ?? 0
    const head = trailHead(connection)
    const badRange = firstBadRange(connection)
    if (badRange !== null) return { rows, firstBad: badRange, head }
    const all = connection.each<TrailRow>(`SELECT ${TRAIL_FIELDS} FROM trail ORDER BY sequence`)
    const counted = counting(all, (done) => onRows(done, rows))
    return { rows, firstBad: verifyChain(counted, retiredHead(connection)), head }
  })
}

/** Rows after a number, up to another one, in order; at most `limit` of them. */
export function trailRows({ statement }: Connection, { after, upTo, limit }: { after: number; upTo: number; limit: number }): readonly TrailRow[] {
  return statement<TrailRow>(`SELECT ${TRAIL_FIELDS} FROM trail WHERE sequence > ? AND sequence <= ? ORDER BY sequence LIMIT ?`).all(
    after,
    upTo,
    limit,
  )
}

/** The number of the first row that is there; 1 where none is. */
export function firstTrailRow({ statement }: Connection): number {
  return statement<{ sequence: number | null }>('SELECT min(sequence) AS sequence FROM trail').get()?.sequence ?? 1
}

/** The number of the first row from an instant on (UTC, ISO 8601); null where there is none. */
export function firstTrailRowFrom({ statement }: Connection, instant: string): number | null {
  return statement<{ sequence: number | null }>('SELECT min(sequence) AS sequence FROM trail WHERE at >= ?').get(instant)?.sequence ?? null
}

/** The number of the last row of before an instant (UTC, ISO 8601), whatever a clock that ran ahead wrote before it; null where there is none. */
export function lastTrailRowBefore({ statement }: Connection, instant: string): number | null {
  return statement<{ sequence: number | null }>('SELECT max(sequence) AS sequence FROM trail WHERE at < ?').get(instant)?.sequence ?? null
}

/** The hash of a row: null where there is no such row, undefined where it was retired and its hash is kept no longer. */
export function trailHashAt(connection: Connection, sequence: number): string | null | undefined {
  const row = connection.statement<{ hash: string }>('SELECT hash FROM trail WHERE sequence = ?').get(sequence)
  if (row !== undefined) return row.hash
  const range = logRanges(connection).find(({ first, last }) => first <= sequence && sequence <= last)
  if (range === undefined) return null
  return range.last === sequence ? range.lastHash : undefined
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

/** A stored row with its event read. */
export function readRow(row: TrailRow): ReadTrailRow {
  return { ...row, event: JSON.parse(row.event) as TrailEvent }
}

/** A page of the log, latest first, and how many rows there are on all its pages. */
export function trailPage(connection: Connection, { actor, limit, offset }: TrailQuery): { rows: ReadTrailRow[]; total: number } {
  const where = actor === null ? '' : 'WHERE actor = ?'
  const whose = actor === null ? [] : [actor]
  return connection.snapshot(() => {
    const rows = connection
      .statement<TrailRow>(`SELECT ${TRAIL_FIELDS} FROM trail ${where} ORDER BY sequence DESC LIMIT ? OFFSET ?`)
      .all(...whose, limit, offset)
    const total = connection.statement<{ total: number }>(`SELECT count(*) AS total FROM trail ${where}`).get(...whose)?.total ?? 0
    return { rows: rows.map(readRow), total }
  })
}
