import Papa from 'papaparse'
import { type RefusedFile, refusedFile } from '../../lib/intake/fileBytes.ts'

/** One record of a CSV text: its first physical line, itself as received without the line end, and its cells. */
export interface CsvRow {
  readonly line: number
  readonly text: string
  readonly cells: readonly string[]
}

function linesIn(text: string, end: string): number {
  let lines = 0
  for (let at = text.indexOf(end); at >= 0; at = text.indexOf(end, at + 1)) lines++
  return lines
}

/** The cells without the carriage return of a CRLF line end, which the parser leaves on an unquoted last cell. */
function withoutReturn(cells: readonly string[], text: string): readonly string[] {
  const last = cells.at(-1)
  const isQuoted = text.endsWith('\r"\r')
  return last?.endsWith('\r') === true && text.endsWith('\r') && !isQuoted ? [...cells.slice(0, -1), last.slice(0, -1)] : cells
}

/**
 * Splits a CSV text (RFC 4180; comma; LF, CRLF or CR) into its records, none skipped but empty lines at the very end. A quote that is never closed, or
 * one that is followed by more text, makes it uncertain where records begin: the whole file is refused with the line.
 */
export function splitByLibrary(text: string, fileName: string): readonly CsvRow[] | RefusedFile {
  const end = text.includes('\n') ? '\n' : '\r'
  const rows: CsvRow[] = []
  const blanks: CsvRow[] = []
  let [from, line] = [0, 1]
  const faults: RefusedFile[] = []
  Papa.parse<string[]>(text, {
    delimiter: ',',
    newline: end,
    step: ({ data, errors, meta }, parser) => {
      const error = errors.find(({ type }) => type === 'Quotes')
      if (error !== undefined) {
        const at = line + linesIn(text.slice(from, error.index ?? from), end)
        faults.push(
          error.code === 'MissingQuotes'
            ? refusedFile('unclosed-quote', `${fileName} has a quote on line ${at} that is never closed; nothing after it can be told apart.`)
            : refusedFile(
                'misplaced-quote',
                `${fileName} has text after a closing quote in the field that begins on line ${at}; a quote inside a field must be doubled.`,
              ),
        )
        parser.abort()
        return
      }
      const whole = text.slice(from, meta.cursor)
      const bare = whole.endsWith(end) ? whole.slice(0, -1) : whole
      const row = { line, text: bare.endsWith('\r') ? bare.slice(0, -1) : bare, cells: withoutReturn(data, bare) }
      if (row.text === '') blanks.push(row)
      else {
        // One by one: a call takes a hundred thousand arguments at most.
        for (const blank of blanks.splice(0)) rows.push(blank)
        rows.push(row)
      }
      line += linesIn(whole, end)
      from = meta.cursor
    },
  })
  return faults[0] ?? rows
}
