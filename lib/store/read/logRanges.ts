import { NO_HEAD, type TrailHead } from '../../trail/index.ts'
import type { Connection } from '../connection.ts'

/** Oldest entries of the log that went to a file and are here no longer. */
export interface LogRange {
  readonly id: number
  /** Their first and last sequence number. */
  readonly first: number
  readonly last: number
  /** The hash before the first of them, and that of the last. */
  readonly previousHash: string
  readonly lastHash: string
  readonly fileSha256: string
  readonly retiredBy: string
  readonly retiredAt: string
}

const FIELDS = `id, first_sequence AS first, last_sequence AS last, previous_hash AS previousHash, last_hash AS lastHash, file_sha256 AS fileSha256,
  retired_by AS retiredBy, retired_at AS retiredAt`

/** Every retired range, oldest first. */
export function logRanges({ statement }: Connection): readonly LogRange[] {
  return statement<LogRange>(`SELECT ${FIELDS} FROM log_range ORDER BY id`).all()
}

/** What the first row that is left follows. */
export function retiredHead(connection: Connection): TrailHead {
  const last = logRanges(connection).at(-1)
  return last === undefined ? NO_HEAD : { sequence: last.last, hash: last.lastHash }
}

const LAST_RETIREMENT = "SELECT event FROM trail WHERE action = 'log-retired' ORDER BY sequence DESC LIMIT 1"

/**
 * The first number of a range that does not follow the one before, or that the log itself does not tell of; null where all do. The entry of the last
 * range is always in the log; those of earlier ranges may have gone to a file with the entries around them.
 */
export function firstBadRange(connection: Connection): number | null {
  let before = NO_HEAD
  const ranges = logRanges(connection)
  for (const { first, last, previousHash, lastHash } of ranges) {
    if (first !== before.sequence + 1 || previousHash !== before.hash) return first
    before = { sequence: last, hash: lastHash }
  }
  const range = ranges.at(-1)
  if (range === undefined) return null
  const entry = connection.statement<{ event: string }>(LAST_RETIREMENT).get()
  const told = entry === undefined ? undefined : (JSON.parse(entry.event) as Partial<LogRange>)
  const isTold = (['first', 'last', 'previousHash', 'lastHash', 'fileSha256'] as const).every((field) => told?.[field] === range[field])
  return isTold ? null : range.first
}

/** What names this database and no other, wherever its file lies. */
export function databaseId({ statement }: Connection): string {
  return statement<{ code: string }>('SELECT code FROM database_identity').get()?.code ?? ''
}
