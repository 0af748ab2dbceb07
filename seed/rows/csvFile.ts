import Papa from 'papaparse'

/** A CSV file that grows piece by piece (RFC 4180, UTF-8, header row). */
export interface CsvFile {
  add(rows: readonly Readonly<Partial<Record<string, string>>>[]): void
  readonly rows: number
  bytes(): Uint8Array
}

/** Keeps encoded pieces, not rows: memory grows with the bytes of the file alone. */
export function csvFile(columns: readonly string[]): CsvFile {
  const encoder = new TextEncoder()
  const pieces: Uint8Array[] = [encoder.encode(`${columns.join(',')}\r\n`)]
  let count = 0
  return {
    get rows() {
      return count
    },
    add(rows) {
      if (rows.length === 0) return
      count += rows.length
      const data = rows.map((row) => columns.map((column) => row[column] ?? ''))
      pieces.push(encoder.encode(`${Papa.unparse(data, { newline: '\r\n' })}\r\n`))
    },
    bytes() {
      const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0))
      let at = 0
      for (const piece of pieces) {
        whole.set(piece, at)
        at += piece.length
      }
      return whole
    },
  }
}
