import { randomUUID } from 'node:crypto'
import type { WritingConnection } from '../connection.ts'
import { NotOpened } from '../open/notOpened.ts'
import { untilFree } from '../write/busy.ts'
import { type Applied, requireSamePast } from './migrate.ts'
import type { Migration } from './migrations.ts'

const APPLIED_TABLE = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  id text PRIMARY KEY NOT NULL, checksum text NOT NULL, finished_at text, migration_name text NOT NULL, logs text,
  rolled_back_at text, started_at text NOT NULL, applied_steps_count bigint NOT NULL DEFAULT 0)`

const RECORD = `INSERT INTO "_prisma_migrations" (id, checksum, finished_at, migration_name, started_at, applied_steps_count) VALUES (?, ?, ?, ?, ?, 1)`
const APPLIED = 'SELECT migration_name, checksum FROM "_prisma_migrations" WHERE rolled_back_at IS NULL'
const OURS = "SELECT 1 AS found FROM pg_tables WHERE schemaname = 'public' AND tablename = '_prisma_migrations'"
const FOREIGN = "SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' ORDER BY tablename LIMIT 1"

function missingOf({ statement }: WritingConnection, migrations: readonly Migration[]): readonly Migration[] {
  const applied = statement<Applied>(APPLIED).all()
  requireSamePast(applied, migrations)
  return migrations.filter(({ name }) => !applied.some((done) => done.migration_name === name))
}

/** True when nothing is left to apply: told without the turn to write, so that a start beside a long write does not wait. */
function isUpToDate(connection: WritingConnection, migrations: readonly Migration[]): boolean {
  const { statement } = connection
  if (statement(OURS).get() !== undefined) return missingOf(connection, migrations).length === 0
  const foreign = statement<{ name: string }>(FOREIGN).get()
  if (foreign === undefined) return false
  throw new NotOpened(
    `The database on the server is one of another program (it has a table "${foreign.name}" and none of Lowmark). Name the right one in DATABASE_URL.`,
  )
}

/**
 * Applies to a database on a server what is missing, all of it or nothing, and returns the names applied. Programs that start at once take turns. Throws
 * NotOpened when an applied migration is unknown or was changed, StoreBusy when the turn cannot be had within `patienceMs`.
 */
export async function migrateServer(connection: WritingConnection, migrations: readonly Migration[], patienceMs: number): Promise<readonly string[]> {
  if (isUpToDate(connection, migrations)) return []
  await untilFree(() => connection.begin(), patienceMs)
  try {
    connection.exec(APPLIED_TABLE)
    const missing = missingOf(connection, migrations)
    for (const { name, sql, checksum } of missing) {
      const started = new Date().toISOString()
      connection.exec(sql)
      connection.statement(RECORD).run(randomUUID(), checksum, new Date().toISOString(), name, started)
    }
    connection.commit()
    return missing.map(({ name }) => name)
  } catch (error) {
    connection.rollback()
    throw error
  }
}
