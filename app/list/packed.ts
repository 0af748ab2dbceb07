import { type Columns, inColumns, inRows, type SomeInColumns, someInColumns, someInRows } from './inColumns.ts'
import type { Listed } from './listed.ts'

/** What only some rows have. */
const PARTS = ['strip', 'late', 'handedOver', 'noted', 'news', 'has'] as const
type Part = (typeof PARTS)[number]

/** The rows of the list as a page sends them to the browser's part. */
export interface PackedRows {
  readonly count: number
  readonly fields: Columns<Omit<Listed, Part>>
  readonly parts: { readonly [P in Part]: SomeInColumns<NonNullable<Listed[P]>> }
}

/** One value for each part, by its name. */
function ofParts<T>(of: (part: Part) => T): { readonly [P in Part]: T } {
  return Object.fromEntries(PARTS.map((part) => [part, of(part)])) as { [P in Part]: T }
}

export function packedRows(rows: readonly Listed[]): PackedRows {
  const isField = ([name]: readonly [string, unknown]) => !PARTS.some((part) => part === name)
  const fields = rows.map((row) => Object.fromEntries(Object.entries(row).filter(isField)) as Omit<Listed, Part>)
  const parts = ofParts((part) => someInColumns(rows.map((row) => row[part])))
  return { count: rows.length, fields: inColumns(fields), parts: parts as PackedRows['parts'] }
}

export function unpackedRows({ count, fields, parts }: PackedRows): readonly Listed[] {
  const some = ofParts((part) => someInRows<object>(parts[part]))
  return inRows(fields, count).map((row, at) => ({ ...row, ...ofParts((part) => some[part].get(at) ?? null) }) as Listed)
}
