import Papa from 'papaparse'

/** What one field of an export holds; null is an empty field. */
export type CsvCell = string | number | null

// Signs that begin a formula, their full-width forms too, behind whatever a spreadsheet passes over: blanks, marks without width, quotes.
const FORMULA = /^[\s\p{Z}\p{Cc}\p{Cf}"]*[=+\-@\uff1d\uff0b\uff0d\uff20]/u
/** A number of either sign runs nothing, and must stay one. */
const NUMBER = /^[+-]?\d+(\.\d+)?$/
const STRIPPED_AT_THE_BEGINNING = /^[\t\r\n]/
/** Where another spreadsheet may begin a cell: semicolon and tab separate them where the comma is decimal, line ends everywhere. */
const SEPARATORS = /([;\t\r\n])/

const isRun = (piece: string): boolean => FORMULA.test(piece) && !NUMBER.test(piece)

/**
 * A text no spreadsheet runs: an apostrophe stands before every place at which a cell could begin with = + - @, before a tab and a line end at the
 * beginning too. Nothing else is changed. Source: OWASP, "CSV Injection" (https://owasp.org/www-community/attacks/CSV_Injection), for the signs, the
 * full-width ones and the separators; leading blanks and numbers (ours).
 */
export function withoutFormula(text: string): string {
  const safe = text
    .split(SEPARATORS)
    .map((piece) => (isRun(piece) ? `'${piece}` : piece))
    .join('')
  return STRIPPED_AT_THE_BEGINNING.test(safe) ? `'${safe}` : safe
}

const BYTE_ORDER_MARK = '\ufeff'

/**
 * Records as CSV (RFC 4180): every field in quotes, CRLF after each record, the last too, each as long as the longest; formulas are made text. It begins
 * with the byte order mark, without which spreadsheets do not read UTF-8. For a file of a few thousand rows, as it is held in memory whole.
 */
export function csvText(records: readonly (readonly CsvCell[])[]): string {
  const width = records.reduce((widest, { length }) => Math.max(widest, length), 0)
  const cells = records.map((record) =>
    Array.from({ length: width }, (_, at) => {
      const cell = record[at] ?? ''
      return typeof cell === 'number' ? String(cell) : withoutFormula(cell)
    }),
  )
  // The library's own `escapeFormulae` misses a formula behind a blank, in a text of several lines, and with a full-width sign, and marks -1.2.
  return records.length === 0 ? BYTE_ORDER_MARK : `${BYTE_ORDER_MARK}${Papa.unparse(cells, { quotes: true, newline: '\r\n' })}\r\n`
}
