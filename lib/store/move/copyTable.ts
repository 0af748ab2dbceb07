import type { Cell, Connection } from '../connection.ts'
import { type MovedTable, rowsOf } from './tables.ts'

type Row = Readonly<Record<string, Cell>>

const MOST_TEXT = 4_000_000

// PostgreSQL reads bytes from a text of this form ("Binary Data Types", bytea hex format).
const cellOf = (cell: Cell): Exclude<Cell, Buffer> => (Buffer.isBuffer(cell) ? `\\x${cell.toString('hex')}` : cell)

function jsonOf(row: Row): string {
  return JSON.stringify(Object.fromEntries(Object.entries(row).map(([column, cell]) => [column, cellOf(cell)])))
}

/** Copies every row of a table from a file to a server, as many in one statement as make a text of a few megabytes, and answers how many there were. */
export function copyTable(from: Connection, to: Connection, table: MovedTable): number {
  const columns = table.columns.map((column) => `"${column}"`).join(', ')
  const insert = to.statement(
    `INSERT INTO "${table.name}" (${columns}) SELECT ${columns} FROM json_populate_recordset(CAST(NULL AS "${table.name}"), CAST(? AS json))`,
  )
  let rows = 0
  let waiting: string[] = []
  let length = 0
  const send = (): void => {
    if (waiting.length > 0) insert.run(`[${waiting.join(',')}]`)
    waiting = []
    length = 0
  }
  for (const row of from.each<Row>(rowsOf(table, 'sqlite'))) {
    const text = jsonOf(row)
    waiting.push(text)
    length += text.length
    rows += 1
    if (length > MOST_TEXT) send()
  }
  send()
  return rows
}
