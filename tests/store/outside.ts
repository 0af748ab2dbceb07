import Database from 'better-sqlite3'
import type { Cell } from '../../lib/store/connection.ts'
import { connectServer } from '../../lib/store/postgres/connectServer.ts'
import { sqlForServer } from '../../lib/store/postgres/sqlForServer.ts'
import { isOnServer } from './testServer.ts'

/** A database as another program sees it, past every check of Lowmark: one way to ask either engine, each answer at once. */
export interface Outside {
  /** The first row; undefined where there is none. */
  get<Row>(sql: string, ...cells: Cell[]): Row | undefined
  all<Row>(sql: string, ...cells: Cell[]): Row[]
  /** The first column of the first row; undefined where there is none. */
  value<T>(sql: string, ...cells: Cell[]): T | undefined
  /** The first column of every row. */
  values<T>(sql: string, ...cells: Cell[]): T[]
  run(sql: string, ...cells: Cell[]): void
  /** Any number of statements, all of them or none. Throws the engine's own error. */
  exec(sql: string): void
  close(): void
}

type Asked = Pick<Outside, 'run' | 'exec' | 'close'> & { readonly all: (sql: string, cells: Cell[]) => unknown[] }

// As long as a test's own writes hold it at most.
const WAIT_MS = 20_000

function sqlite(path: string, reading: boolean): Asked {
  const db = new Database(path, { readonly: reading, timeout: WAIT_MS })
  return {
    all: (sql, cells) => db.prepare(sql).all(...cells),
    run: (sql, ...cells) => void db.prepare(sql).run(...cells),
    exec: (sql) => void db.exec(sql),
    close: () => void db.close(),
  }
}

// There is no REPLACE in PostgreSQL: what comes nearest is the row itself, which the guards have to refuse just as well.
const withoutReplace = (sql: string): string => sql.replaceAll(/\bINSERT OR REPLACE\b/g, 'INSERT')

function server(url: string, reading: boolean): Asked {
  const connection = connectServer(url, { reading })
  return {
    all: (sql, cells) => connection.statement(sql).all(...cells),
    run: (sql, ...cells) => void connection.statement(sql).run(...cells),
    exec: (sql) => connection.exec(sqlForServer(withoutReplace(sql))),
    close: () => connection.close(),
  }
}

/** Opens the database `url` names; `reading` refuses every write. */
export function fromOutside(url: string, { reading = false }: { readonly reading?: boolean } = {}): Outside {
  const { all, run, exec, close } = isOnServer(url) ? server(url, reading) : sqlite(url.slice('file:'.length), reading)
  const rows = <Row>(sql: string, cells: Cell[]) => all(sql, cells) as Row[]
  const firstOf = <T>(row: Readonly<Record<string, T>>): T => Object.values(row)[0] as T
  return {
    get: <Row>(sql: string, ...cells: Cell[]) => rows<Row>(sql, cells)[0],
    all: <Row>(sql: string, ...cells: Cell[]) => rows<Row>(sql, cells),
    value: <T>(sql: string, ...cells: Cell[]) => rows<Record<string, T>>(sql, cells).map(firstOf)[0],
    values: <T>(sql: string, ...cells: Cell[]) => rows<Record<string, T>>(sql, cells).map(firstOf),
    run,
    exec,
    close,
  }
}
