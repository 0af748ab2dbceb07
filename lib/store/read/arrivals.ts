import type { Connection } from '../connection.ts'

/** When a source last sent something, and how regularly it did before. */
export interface Arrival {
  readonly source: string
  /** UTC, ISO 8601. */
  readonly lastAt: string
  /** Different days (UTC) with something from it, in the 60 days that end with the last. */
  readonly days: number
}

const ARRIVALS = `WITH last AS (SELECT source, max(received_at) AS at FROM intake_file WHERE source IS NOT NULL GROUP BY source)
  SELECT last.source, last.at AS lastAt, count(DISTINCT date(intake_file.received_at)) AS days
  FROM last JOIN intake_file ON intake_file.source = last.source AND intake_file.received_at > datetime(last.at, '-60 days')
  GROUP BY last.source ORDER BY last.source`

/** The last arrival from every source a file named. */
export function arrivals({ statement }: Connection): Arrival[] {
  return statement<Arrival>(ARRIVALS).all()
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
