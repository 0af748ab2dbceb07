import { randomUUID } from 'node:crypto'
import Database from 'better-sqlite3'
import { NotOpened } from '../open/notOpened.ts'
import { requireOurs } from '../open/ownFile.ts'
import { untilFree } from '../write/busy.ts'
import type { Migration } from './migrations.ts'

// Prisma's own table, so that `prisma migrate` agrees where its engine can be had.
const APPLIED_TABLE = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" TEXT PRIMARY KEY NOT NULL, "checksum" TEXT NOT NULL, "finished_at" DATETIME, "migration_name" TEXT NOT NULL, "logs" TEXT,
  "rolled_back_at" DATETIME, "started_at" DATETIME NOT NULL DEFAULT current_timestamp, "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0)`

const RECORD = `INSERT INTO "_prisma_migrations" (id, checksum, finished_at, migration_name, started_at, applied_steps_count) VALUES (?, ?, ?, ?, ?, 1)`

/** A migration as the database remembers it. */
export interface Applied {
  readonly migration_name: string
  readonly checksum: string
}

/** Refuses a database whose past is not the one these files tell. */
export function requireSamePast(applied: readonly Applied[], migrations: readonly Migration[]): void {
  for (const { migration_name: name, checksum } of applied) {
    const file = migrations.find((migration) => migration.name === name)
    if (file === undefined)
      throw new NotOpened(`The database was changed by "${name}", which this version of Lowmark does not know. Start the newer version.`)
    if (file.checksum !== checksum)
      throw new NotOpened(`The migration "${name}" was changed after it was applied. Put the file back as it was, and add a new migration instead.`)
  }
}

function applyMissing(db: Database.Database, migrations: readonly Migration[], now: () => string): readonly string[] {
  db.exec(APPLIED_TABLE)
  const applied = db.prepare<[], Applied>('SELECT migration_name, checksum FROM "_prisma_migrations" WHERE rolled_back_at IS NULL').all()
  requireSamePast(applied, migrations)
  const missing = migrations.filter((migration) => !applied.some((done) => done.migration_name === migration.name))
  for (const { name, sql, checksum } of missing) {
    const started = now()
    db.exec(sql)
    db.prepare(RECORD).run(randomUUID(), checksum, now(), name, started)
  }
  const broken = db.pragma('foreign_key_check') as unknown[]
  if (missing.length > 0 && broken.length > 0)
    throw new NotOpened(`After the migrations ${broken.length} rows point to nothing. Nothing was changed; restore a backup.`)
  return missing.map((migration) => migration.name)
}

/** True when nothing is left to apply: told without the write lock, so that a start beside a long write does not wait. */
function isUpToDate(db: Database.Database, path: string, migrations: readonly Migration[]): boolean {
  const has = db.prepare("SELECT 1 FROM sqlite_master WHERE name = '_prisma_migrations'").get()
  if (has === undefined) {
    requireOurs(db, path)
    return false
  }
  const applied = db.prepare<[], Applied>('SELECT migration_name, checksum FROM "_prisma_migrations" WHERE rolled_back_at IS NULL').all()
  requireSamePast(applied, migrations)
  return migrations.every((migration) => applied.some((done) => done.migration_name === migration.name))
}

/**
 * Applies what is missing, all of it or nothing, and returns the names applied. Two programs that start at once take turns; the second finds
 * nothing to do. Throws NotOpened when an applied migration is unknown or was changed, StoreBusy when the lock cannot be had within `patienceMs`.
 */
export async function migrate(path: string, migrations: readonly Migration[], patienceMs: number): Promise<readonly string[]> {
  const db = new Database(path, { fileMustExist: true, timeout: 0 })
  const now = (): string => new Date().toISOString()
  try {
    if (await untilFree(() => isUpToDate(db, path, migrations), patienceMs)) return []
    // WAL and foreign_keys are no part of a transaction: both are set before it. A migration may rebuild a table others point to.
    await untilFree(() => db.pragma('journal_mode = WAL'), patienceMs)
    db.pragma('synchronous = FULL')
    db.pragma('foreign_keys = OFF')
    await untilFree(() => db.exec('BEGIN IMMEDIATE'), patienceMs)
    try {
      const names = applyMissing(db, migrations, now)
      db.exec('COMMIT')
      return names
    } catch (error) {
      if (db.inTransaction) db.exec('ROLLBACK')
      throw error
    }
  } finally {
    db.close()
  }
}
