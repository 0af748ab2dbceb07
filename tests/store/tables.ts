import { existsSync } from 'node:fs'
import { fromOutside, type Outside } from './outside.ts'
import { isOnServer, TEST_SERVER } from './testServer.ts'

const IN_FILE = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"
// A table in parts is one table.
const ON_SERVER = `SELECT c.relname FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  WHERE n.nspname = 'public' AND c.relkind IN ('r', 'p') AND NOT c.relispartition ORDER BY c.relname COLLATE "C"`

/** Every table of a database, its migrations' own with them, by name. */
export const tableNames = (db: Outside): string[] => db.values<string>(TEST_SERVER === null ? IN_FILE : ON_SERVER)

/** Whether a place for a database has one in it. */
export function isMade(url: string): boolean {
  return isOnServer(url) ? askOutside(url, tableNames).length > 0 : existsSync(url.slice('file:'.length))
}

/** Asks one question of a database that is open elsewhere. */
export function askOutside<T>(url: string, ask: (db: Outside) => T): T {
  const db = fromOutside(url, { reading: true })
  try {
    return ask(db)
  } finally {
    db.close()
  }
}

/** How many rows a table has. */
export const countOf = (url: string, table: string): number => askOutside(url, (db) => db.value<number>(`SELECT count(*) FROM ${table}`) ?? 0)

/** Every row of a table, with the columns as the table names them. */
export const rowsOf = (url: string, table: string): Readonly<Record<string, unknown>>[] => askOutside(url, (db) => db.all(`SELECT * FROM ${table}`))
