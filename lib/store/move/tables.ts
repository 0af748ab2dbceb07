import type Database from 'better-sqlite3'
import type { Connection } from '../connection.ts'

/** A table as it is copied and compared: its own columns, in order, and what puts its rows into one order on both engines. */
export interface MovedTable {
  readonly name: string
  readonly columns: readonly string[]
  /** By the primary key, or by every column where it has none. */
  readonly orderedBy: readonly { readonly column: string; readonly isText: boolean }[]
}

interface Column {
  readonly name: string
  readonly type: string
  readonly pk: number
  /** 0: kept; others are made from it. */
  readonly hidden: number
}

const NAMES =
  "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite~_%' ESCAPE '~' AND name <> '_prisma_migrations' ORDER BY name"

/** Every table of a file but that of its migrations. */
export function tablesOf(db: Database.Database): MovedTable[] {
  const names = db.prepare<[], string>(NAMES).pluck().all()
  return names.map((name) => {
    const columns = (db.pragma(`table_xinfo("${name}")`) as readonly Column[]).filter(({ hidden }) => hidden === 0)
    const key = columns.filter(({ pk }) => pk > 0).toSorted((a, b) => a.pk - b.pk)
    const orderedBy = (key.length > 0 ? key : columns).map((column) => ({ column: column.name, isText: column.type === 'TEXT' }))
    return { name, columns: columns.map((column) => column.name), orderedBy }
  })
}

/** The statement that reads a table in its order: byte by byte on both engines, whatever a column compares by otherwise. */
export function rowsOf({ name, columns, orderedBy }: MovedTable, engine: 'sqlite' | 'postgresql'): string {
  const bytes = engine === 'sqlite' ? 'BINARY' : '"C"'
  const order = orderedBy.map(({ column, isText }) => `"${column}"${isText ? ` COLLATE ${bytes}` : ''} NULLS FIRST`)
  return `SELECT ${columns.map((column) => `"${column}"`).join(', ')} FROM "${name}" ORDER BY ${order.join(', ')}`
}

const POINTS_TO = `SELECT conrelid::regclass::text AS child, confrelid::regclass::text AS parent FROM pg_constraint
  WHERE contype = 'f' AND conparentid = 0 AND connamespace = 'public'::regnamespace AND conrelid <> confrelid`

/** The tables in an order in which none points to one that comes after it. Throws where they point round in a circle. */
export function parentsFirst({ statement }: Connection, tables: readonly MovedTable[]): MovedTable[] {
  const pointing = statement<{ child: string; parent: string }>(POINTS_TO).all()
  const left = new Map(tables.map((table) => [table.name, table]))
  const ordered: MovedTable[] = []
  while (left.size > 0) {
    const free = [...left.values()].filter(({ name }) => !pointing.some(({ child, parent }) => child === name && left.has(parent)))
    if (free.length === 0) throw new Error(`The tables ${[...left.keys()].join(', ')} point to each other in a circle.`)
    for (const table of free) left.delete(table.name)
    ordered.push(...free)
  }
  return ordered
}
