import Database from 'better-sqlite3'
import pg from 'pg'
// Its type alone: what is built here has nothing of the bench in it.
import type { Asked, AskedForPage } from '../../asked.ts'

export type Row = Record<string, string | number | null>

/** Answers the rows of the page. */
export type Ask = () => Promise<readonly Row[]>

interface Id {
  readonly patientId: string
}

const textOf = (ids: readonly Id[]): string => JSON.stringify(ids.map(({ patientId }) => patientId))

function inOrder(ids: readonly Id[], rows: readonly Row[]): readonly Row[] {
  const rowOf = new Map(rows.map((row) => [row.patientId, row]))
  return ids.map(({ patientId }) => rowOf.get(patientId) ?? {})
}

function ofFile(path: string, asked: AskedForPage): Ask {
  const db = new Database(path, { readonly: true })
  const ids = db.prepare<unknown[], Id>(asked.ids.sql)
  const rows = db.prepare<[string], Row>(asked.rows)
  const beside = asked.beside.map(({ sql, cells }) => ({ statement: db.prepare(sql), cells }))
  return async () => {
    for (const { statement, cells } of beside) statement.all(...cells)
    const shown = ids.all(...asked.ids.cells)
    return inOrder(shown, rows.all(textOf(shown)))
  }
}

// What makes a statement cheaper for the program makes it so here (lib/store/postgres/connectServer.ts): held against it is what the program does beside asking.
const AS_THE_PROGRAM = '-c plan_cache_mode=force_generic_plan -c jit=off'

function ofServer(url: string, asked: AskedForPage): Ask {
  // One connection, as the list has one to read by.
  const pool = new pg.Pool({ connectionString: url, max: 1, options: AS_THE_PROGRAM })
  const rowsOf = async <R extends object>(name: string, text: string, values: Asked['cells']) =>
    (await pool.query<R>({ name, text, values: [...values] })).rows
  return async () => {
    for (const [at, { sql, cells }] of asked.beside.entries()) await rowsOf(`beside_${at}`, sql, cells)
    const shown = await rowsOf<Id>('ids', asked.ids.sql, asked.ids.cells)
    return inOrder(shown, await rowsOf<Row>('rows', asked.rows, [textOf(shown)]))
  }
}

/** What a page asks of the database at this address, prepared once. */
export function prepared(url: string, asked: AskedForPage): Ask {
  return url.startsWith('postgresql:') ? ofServer(url, asked) : ofFile(url.slice('file:'.length), asked)
}
