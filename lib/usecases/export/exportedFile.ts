import { CAUTION } from './caution.ts'
import { type CsvCell, csvText } from './csvText.ts'

/** A file to be saved; its name tells nothing of anybody. */
export interface ExportedFile {
  readonly fileName: string
  readonly text: string
}

/** Columns of a table, each with its name and what stands in it. */
export type Columns<Row> = readonly (readonly [name: string, cellOf: (row: Row) => CsvCell])[]

/** A CSV file that says first what it is: the caution line, what it holds, a blank record, then header and rows. */
export function cautionedTable<Row>(fileName: string, about: string, columns: Columns<Row>, rows: readonly Row[]): ExportedFile {
  const table = [columns.map(([name]) => name), ...rows.map((row) => columns.map(([, cellOf]) => cellOf(row)))]
  return { fileName, text: csvText([[CAUTION], [about], [], ...table]) }
}
