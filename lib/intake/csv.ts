import { analyteUnit } from './analyteUnit.ts'
import { type CsvRow, csvRows } from './csvRows.ts'
import { type RefusedFile, refusedFile, textOfBytes } from './fileBytes.ts'
import { hl7Rows } from './hl7/hl7Rows.ts'
import { isHl7 } from './hl7/isHl7.ts'
import { analyteOfCode } from './loinc.ts'
import type { RefusedRow } from './reason.ts'
import { field, type RawRow } from './row.ts'
import { problem } from './sentences.ts'
import { type TableKind, tableKind } from './tableKind.ts'

/** A file as read: refused whole with its reason, or every one of its rows. */
export type ReadTable = RefusedFile | { readonly ok: true; readonly kind: TableKind; readonly rows: readonly RawRow[] }

function rawRow({ line, text, cells }: CsvRow, header: readonly string[]): RawRow {
  const fields: Record<string, string> = Object.create(null)
  header.forEach((column, at) => {
    fields[column] = cells[at] ?? ''
  })
  if (cells.length === header.length) return { line, text, fields, refusal: null }
  const detail = `${cells.length === 1 ? '1 field' : `${cells.length} fields`} where the header has ${header.length}`
  const reason = cells.length > header.length ? 'row-too-long' : 'row-too-short'
  return { line, text, fields, refusal: problem(reason, { column: '', text, detail }) as RefusedRow }
}

const needsUnit = (row: RawRow): boolean => {
  const analyte = analyteOfCode(field(row, 'code'))
  return analyte !== null && analyteUnit(analyte) !== null && analyteUnit(analyte)?.kept !== '1'
}

/**
 * Reads the bytes of a file of rows: HL7 v2 by its first segment, else one of the three CSV files, by its header. Every record after the header is a
 * row, an empty line in between too (it is too short). `fileName` only names the file in sentences. Never throws.
 */
export function readTable(bytes: Uint8Array, fileName: string): ReadTable {
  const decoded = textOfBytes(bytes, fileName)
  if (!decoded.ok) return decoded
  if (isHl7(decoded.text)) {
    const rows = hl7Rows(decoded.text, fileName)
    return 'ok' in rows ? rows : { ok: true, kind: 'results', rows }
  }
  const records = csvRows(decoded.text, fileName)
  if ('ok' in records) return records
  const [first, ...others] = records
  const header = (first?.cells ?? []).map((name) => name.trim())
  const kind = tableKind(header, fileName)
  if (typeof kind !== 'string') return kind
  const rows = others.map((record) => rawRow(record, header))
  if (kind === 'results' && !header.includes('unit') && rows.some(needsUnit)) {
    return refusedFile('missing-column', `${fileName} has no column unit; results of an analyte that has a unit need it.`)
  }
  return { ok: true, kind, rows }
}
