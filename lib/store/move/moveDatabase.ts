import type { TrailHead } from '../../trail/index.ts'
import type { Connection, WritingConnection } from '../connection.ts'
import { databasePath } from '../open/databaseFile.ts'
import { NotOpened } from '../open/notOpened.ts'
import { setPragmas } from '../open/pragmas.ts'
import { connectServer } from '../postgres/connectServer.ts'
import { trailHead } from '../read/trail.ts'
import { connectFile } from '../sqlite/connectFile.ts'
import { untilFree } from '../write/busy.ts'
import { copyTable } from './copyTable.ts'
import { digestOf, type TableDigest } from './digestOf.ts'
import { type MovedTable, parentsFirst, tablesOf } from './tables.ts'

/** A table that was moved: as many rows, and the same digest, on both sides. */
export interface TableMoved extends TableDigest {
  readonly name: string
}

/** What was moved, compared row by row before it was kept. */
export interface Moved {
  readonly tables: readonly TableMoved[]
  /** Where the log stood. */
  readonly head: TrailHead
}

// Filled by the migrations or the first look at health: they take nobody's place.
const MADE_BY_ITSELF = new Set(['database_identity', 'setting'])

function requireEmpty(to: Connection, tables: readonly MovedTable[]): void {
  const taken = tables.filter(({ name }) => !MADE_BY_ITSELF.has(name) && to.statement(`SELECT 1 AS found FROM "${name}" LIMIT 1`).get() !== undefined)
  if (taken.length === 0) return
  throw new NotOpened(
    `The database on the server is not empty (${taken.map(({ name }) => name).join(', ')}), and moving overwrites nothing. Name an empty one; nothing was moved.`,
  )
}

const PARTS = `SELECT oid::regclass::text AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p')
  AND relname <> '_prisma_migrations' ORDER BY 1`

/** Does something while the guards of every table rest: they would number, refuse or add what comes from elsewhere as it was. References stay in force. */
function whileGuardsRest(to: Connection, work: () => void): void {
  const parts = to.statement<{ name: string }>(PARTS).all()
  for (const { name } of parts) to.exec(`ALTER TABLE ${name} DISABLE TRIGGER USER`)
  work()
  for (const { name } of parts) to.exec(`ALTER TABLE ${name} ENABLE TRIGGER USER`)
}

/** A database began when its file did. */
function keepBeginning(from: Connection, to: Connection): void {
  const began = from.statement<{ at: string | null }>('SELECT min(started_at) AS at FROM "_prisma_migrations"').get()?.at ?? null
  if (began === null) return
  const first = '(SELECT migration_name FROM "_prisma_migrations" ORDER BY migration_name LIMIT 1)'
  to.statement(`UPDATE "_prisma_migrations" SET started_at = ? WHERE migration_name = ${first}`).run(began)
}

function compared(from: Connection, to: Connection, table: MovedTable): TableMoved {
  const [there, here] = [digestOf(from, 'sqlite', table), digestOf(to, 'postgresql', table)]
  if (there.rows !== here.rows || there.sha256 !== here.sha256)
    throw new Error(
      `${table.name} is not the same on the server: ${here.rows} rows (${here.sha256.slice(0, 12)}) of ${there.rows} (${there.sha256.slice(0, 12)}). Nothing was moved.`,
    )
  return { name: table.name, ...here }
}

function copied(from: Connection, to: Connection, table: MovedTable): void {
  try {
    copyTable(from, to, table)
  } catch (error) {
    throw new Error(`Of ${table.name}, a row cannot be kept on the server as it is (${(error as Error).message}). Nothing was moved.`)
  }
}

function moveAll(from: WritingConnection & { readonly tables: readonly MovedTable[] }, to: WritingConnection, onStep: (says: string) => void): Moved {
  requireEmpty(to, from.tables)
  const tables = parentsFirst(to, from.tables)
  whileGuardsRest(to, () => {
    for (const { name } of tables.toReversed()) to.exec(`DELETE FROM "${name}"`)
    for (const table of tables) {
      onStep(`${table.name} ...`)
      copied(from, to, table)
    }
  })
  keepBeginning(from, to)
  onStep('Comparing every row ...')
  return { tables: tables.map((table) => compared(from, to, table)), head: trailHead(to) }
}

/**
 * Copies a database from a file of this version into an empty, migrated one on a server, and compares every cell of both before anything is kept. Nobody can
 * write to either meanwhile; the file stays as it was. Holds up this thread. Throws NotOpened where there is something already, StoreBusy where somebody
 * writes, and an Error that names the table where a row differs: then nothing was moved.
 */
export async function moveDatabase(fromUrl: string, toUrl: string, patienceMs: number, onStep: (says: string) => void): Promise<Moved> {
  const from = connectFile(databasePath(fromUrl), { reading: false, waitMs: 0 })
  const to = connectServer(toUrl, { reading: false })
  try {
    await untilFree(() => setPragmas(from.db, 0), patienceMs)
    await untilFree(() => from.begin(), patienceMs)
    await untilFree(() => to.begin(), patienceMs)
    try {
      const moved = moveAll({ ...from, tables: tablesOf(from.db) }, to, onStep)
      to.commit()
      return moved
    } catch (error) {
      to.rollback()
      throw error
    }
  } finally {
    from.rollback()
    from.close()
    to.close()
  }
}
