import { createHash } from 'node:crypto'
import type { Cell, Connection } from '../connection.ts'
import { type MovedTable, rowsOf } from './tables.ts'

/** How many rows a table has, and a SHA-256 over every cell of them in the table's order: equal where the rows are, on either engine. */
export interface TableDigest {
  readonly rows: number
  readonly sha256: string
}

const textOf = (cell: Cell): unknown => (Buffer.isBuffer(cell) ? { bytes: cell.toString('hex') } : cell)

/** Reads a table from its first row to its last. Inside one transaction or snapshot. */
export function digestOf(connection: Connection, engine: 'sqlite' | 'postgresql', table: MovedTable): TableDigest {
  const hash = createHash('sha256')
  let rows = 0
  for (const row of connection.each<Readonly<Record<string, Cell>>>(rowsOf(table, engine))) {
    hash.update(`${JSON.stringify(table.columns.map((column) => textOf(row[column] ?? null)))}\n`)
    rows += 1
  }
  return { rows, sha256: hash.digest('hex') }
}
