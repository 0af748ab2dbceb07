import type { Cell, Connection } from '../connection.ts'
import { insertOfJson, rowAsJson } from '../postgres/rowsAsJson.ts'
import { type MovedTable, rowsOf } from './tables.ts'

const MOST_TEXT = 4_000_000

/** Copies every row of a table from a file to a server, as many in one statement as make a text of a few megabytes, and answers how many there were. */
export function copyTable(from: Connection, to: Connection, table: MovedTable): number {
  const insert = to.statement(insertOfJson(table.name, table.columns))
  let rows = 0
  let waiting: string[] = []
  let length = 0
  const send = (): void => {
    if (waiting.length > 0) insert.run(`[${waiting.join(',')}]`)
    waiting = []
    length = 0
  }
  for (const row of from.each<Readonly<Record<string, Cell>>>(rowsOf(table, 'sqlite'))) {
    const text = rowAsJson(
      table.columns,
      table.columns.map((column) => row[column] ?? null),
    )
    waiting.push(text)
    length += text.length
    rows += 1
    if (length > MOST_TEXT) send()
  }
  send()
  return rows
}
