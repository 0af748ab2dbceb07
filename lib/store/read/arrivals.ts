import type { Connection } from '../connection.ts'

/** When a source last sent something, and how regularly it did before. */
export interface Arrival {
  readonly source: string
  /** UTC, ISO 8601. */
  readonly lastAt: string
  /** Different days (UTC) with something from it, in the 60 days that end with the last. */
  readonly days: number
}

const LAST = 'SELECT source, max(received_at) AS lastAt FROM intake_file WHERE source IS NOT NULL GROUP BY source ORDER BY source'
const DAYS = 'SELECT count(DISTINCT substr(received_at, 1, 10)) AS days FROM intake_file WHERE source = ? AND received_at >= ?'
const DAY_MS = 86_400_000

const daysBefore = (instant: string, days: number): string => new Date(Date.parse(instant) - days * DAY_MS).toISOString().slice(0, 10)

/** The last arrival from every source a file named. */
export function arrivals({ statement }: Connection): Arrival[] {
  return statement<Omit<Arrival, 'days'>>(LAST)
    .all()
    .map((last) => ({ ...last, days: statement<{ days: number }>(DAYS).get(last.source, daysBefore(last.lastAt, 59))?.days ?? 0 }))
}

/** When this database was made (UTC, ISO 8601): its first migration, for the first entries of the log may be removed one day. */
export function beganAt({ statement }: Connection): string | null {
  return statement<{ at: string | null }>('SELECT min(started_at) AS at FROM "_prisma_migrations"').get()?.at ?? null
}

/** The last migration applied. */
export function schemaOf({ statement }: Connection): string {
  const sql = 'SELECT max(migration_name) AS name FROM "_prisma_migrations" WHERE rolled_back_at IS NULL'
  return statement<{ name: string }>(sql).get()?.name ?? ''
}
