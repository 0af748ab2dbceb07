import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'

/** A review of the log as stored. */
export interface StoredLogReview {
  readonly id: number
  /** Both days are in it. UTC, as the log writes times. */
  readonly from: Day
  readonly to: Day
  readonly by: string
  readonly at: string
  /** The questions that were asked of the log, in its own words. */
  readonly lookedAt: readonly string[]
  readonly note: string | null
  /** How many entries those days had, and how many of them are of whoever reviewed them. */
  readonly entries: number
  readonly ownEntries: number
}

type Stored = Omit<StoredLogReview, 'lookedAt'> & { readonly lookedAt: string }

const SELECT = `SELECT id, from_day AS "from", to_day AS "to", reviewed_by AS "by", reviewed_at AS at, looked_at AS lookedAt,
  note, entries, own_entries AS ownEntries FROM log_review`

/** Every review of the log, latest first. */
export function logReviews({ statement }: Connection): StoredLogReview[] {
  return statement<Stored>(`${SELECT} ORDER BY id DESC`)
    .all()
    .map((review) => ({ ...review, lookedAt: JSON.parse(review.lookedAt) as string[] }))
}

/** The moment of the first entry of the log; null where it is empty. */
export function firstEntryAt({ statement }: Connection): string | null {
  return statement<{ at: string }>('SELECT at FROM trail ORDER BY sequence LIMIT 1').get()?.at ?? null
}
