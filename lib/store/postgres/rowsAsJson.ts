import type { Cell } from '../connection.ts'

// Half of a character of two halves is none in UTF-8; the engines keep this in its place.
const HALF_A_CHARACTER = /\p{Cs}/gu

// PostgreSQL reads bytes from a text of this form ("Binary Data Types", bytea hex format).
function cellOf(cell: Exclude<Cell, null>): string | number {
  if (typeof cell === 'string') return cell.replace(HALF_A_CHARACTER, '\ufffd')
  return Buffer.isBuffer(cell) ? `\\x${cell.toString('hex')}` : cell
}

/** One row as JSON for `insertOfJson`: its cells in the order of the columns. */
export function rowAsJson(columns: readonly string[], cells: readonly Cell[]): string {
  const row: Record<string, string | number> = {}
  for (let at = 0; at < columns.length; at++) {
    const cell = cells[at] ?? null
    // What is not named is null.
    if (cell !== null) row[columns[at] ?? ''] = cellOf(cell)
  }
  return JSON.stringify(row)
}

/** `INSERT` of the rows of a JSON array, its one parameter, in their order. A row by itself is a journey to the server and back. */
export function insertOfJson(table: string, columns: readonly string[]): string {
  const named = columns.map((column) => `"${column}"`).join(', ')
  return `INSERT INTO "${table}" (${named}) SELECT ${named} FROM json_populate_recordset(CAST(NULL AS "${table}"), CAST(? AS json))`
}
