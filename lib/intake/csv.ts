import { analyteUnit } from './analyteUnit.ts'
import { type CsvRow, csvRows } from './csvRows.ts'
import { refusedFile } from './fileBytes.ts'
import { analyteOfCode } from './loinc.ts'
import type { RefusedRow } from './reason.ts'
import { field, type RawRow } from './row.ts'
import { problem } from './sentences.ts'
import type { ReadTable } from './table.ts'
import { type TableKind, tableKind } from './tableKind.ts'

function rawRow({ line, text, cells }: CsvRow, header: readonly string[], kind: TableKind): RawRow {
  const fields: Record<string, string> = Object.create(null)
  header.forEach((column, at) => {
    fields[column] = cells[at] ?? ''
  })
  if (cells.length === header.length) return { kind, line, text, fields, refusal: null }
  const detail = `${cells.length === 1 ? '1 field' : `${cells.length} fields`} where the header has ${header.length}`
  const reason = cells.length > header.length ? 'row-too-long' : 'row-too-short'
  return { kind, line, text, fields, refusal: problem(reason, { column: '', text, detail }) as RefusedRow }
}

const needsUnit = (row: RawRow): boolean => {
  const analyte = analyteOfCode(field(row, 'code'))
  return analyte !== null && analyteUnit(analyte) !== null && analyteUnit(analyte)?.kept !== '1'
}

/**
 * Reads the text of one of the three CSV files; which of them is told from its header. Every record after the header is a row, an empty line in
 * between too (it is too short). `fileName` only names the file in sentences. Never throws.
 */
export function readCsv(text: string, fileName: string): ReadTable {
  const records = csvRows(text, fileName)
  if ('ok' in records) return records
  const [first, ...others] = records
  const header = (first?.cells ?? []).map((name) => name.trim())
  const kind = tableKind(header, fileName)
  if (typeof kind !== 'string') return kind
  const rows = others.map((record) => rawRow(record, header, kind))
  if (kind === 'results' && !header.includes('unit') && rows.some(needsUnit)) {
    return refusedFile('missing-column', `${fileName} has no column unit; results of an analyte that has a unit need it.`)
  }
  return { ok: true, kind, rows }
}
