import Papa from 'papaparse'

export interface ReadBack {
  readonly caution: string
  readonly about: string
  readonly header: readonly string[]
  /** Each row by the names of the header. */
  readonly rows: readonly Readonly<Record<string, string>>[]
}

/** The parts of an exported table, read by the library that did not write them field by field. */
export function readBack(text: string): ReadBack {
  const [caution, about, blank, header = [], ...rows] = Papa.parse<string[]>(text.slice(1).trimEnd(), { delimiter: ',' }).data
  if (!text.startsWith('\ufeff') || blank?.some((cell) => cell !== '') !== false) throw new Error('the file does not begin as an export does')
  return {
    caution: caution?.[0] ?? '',
    about: about?.[0] ?? '',
    header,
    rows: rows.map((row) => Object.fromEntries(header.map((name, at) => [name, row[at] ?? '']))),
  }
}
