import { createHash } from 'node:crypto'
import type Database from 'better-sqlite3'
import type { TrailHead } from '../../trail/index.ts'
import { requireSamePast } from '../migrate/migrate.ts'
import { migrationsDirectory, readMigrations } from '../migrate/migrations.ts'
import { NotOpened } from '../open/notOpened.ts'
import { trailHead, verifyTrail } from '../read/trail.ts'
import { connectFile, type FileConnection } from '../sqlite/connectFile.ts'
import { NotWhole } from './notWhole.ts'

/** What stands in a database file that was found whole. */
export interface DatabaseFacts {
  /** The last migration applied. */
  readonly schema: string
  /** Every row of its log was checked; false where an older version made it and its log is checked once it is migrated. */
  readonly logChecked: boolean
  readonly head: TrailHead
  /** SHA-256 of what was drawn by chance when the database was made: which one it is a copy of. */
  readonly origin: string
  readonly rows: Readonly<Record<string, number>>
}

interface Applied {
  readonly migration_name: string
  readonly checksum: string
}

function isTable(db: Database.Database, name: string): boolean {
  return db.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?").get(name) !== undefined
}

function requireSound(db: Database.Database): void {
  const problems = db.pragma('integrity_check') as { integrity_check: string }[]
  if (problems.length !== 1 || problems[0]?.integrity_check !== 'ok')
    throw new NotWhole(`its pages do not fit together (${problems[0]?.integrity_check ?? 'no answer'})`)
  const broken = db.pragma('foreign_key_check') as unknown[]
  if (broken.length > 0) throw new NotWhole(`${broken.length} of its rows point to nothing`)
}

function countRows(db: Database.Database): Record<string, number> {
  const names = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT GLOB 'sqlite_*' ORDER BY name")
    .all()
  return Object.fromEntries(
    names.map(({ name }) => [name, db.prepare<[], { n: number }>(`SELECT count(*) AS n FROM "${name.replaceAll('"', '""')}"`).get()?.n ?? 0]),
  )
}

function factsOf(connection: FileConnection, migrations: string): DatabaseFacts {
  const { db } = connection
  requireSound(db)
  if (!isTable(db, '_prisma_migrations') || !isTable(db, 'trail')) throw new NotWhole('it is a database of another program')
  const known = readMigrations(migrations)
  const applied = db.prepare<[], Applied>('SELECT migration_name, checksum FROM "_prisma_migrations" WHERE rolled_back_at IS NULL').all()
  requireSamePast(applied, known)
  const logChecked = applied.length === known.length
  const firstBad = logChecked ? verifyTrail(connection).firstBad : null
  if (firstBad !== null) throw new NotWhole(`its log does not fit from row ${firstBad} on`)
  const first = db.prepare<[], { id: string }>('SELECT id FROM "_prisma_migrations" ORDER BY migration_name LIMIT 1').get()
  return {
    schema:
      applied
        .map(({ migration_name: name }) => name)
        .toSorted()
        .at(-1) ?? '',
    logChecked,
    head: trailHead(connection),
    origin: createHash('sha256')
      .update(first?.id ?? '')
      .digest('hex'),
    rows: countRows(db),
  }
}

/**
 * Checks a database file nobody has open: its pages, its references, that its past is the one our migrations tell, the chain of its log; counts every
 * table. Throws NotWhole with what is wrong; NotOpened where a newer version made it.
 */
export function inspectDatabase(path: string, migrations = migrationsDirectory('sqlite')): DatabaseFacts {
  let connection: FileConnection | null = null
  try {
    connection = connectFile(path, { reading: true, waitMs: 0 })
    return factsOf(connection, migrations)
  } catch (error) {
    if (error instanceof NotWhole || error instanceof NotOpened) throw error
    throw new NotWhole(`it cannot be read as a database (${(error as Error).message})`)
  } finally {
    connection?.close()
  }
}
