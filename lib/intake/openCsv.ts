import { analyteUnit } from './analyteUnit.ts'
import type { ByteSource } from './byteSource.ts'
import { csvCells } from './csvCells.ts'
import { csvPlaces } from './csvPlaces.ts'
import { refusedFile } from './fileBytes.ts'
import { analyteOfCode } from './loinc.ts'
import type { RefusedRow } from './reason.ts'
import { field, type RawRow } from './row.ts'
import { problem } from './sentences.ts'
import type { OpenTable } from './table.ts'
import { type TableKind, tableKind } from './tableKind.ts'
import type { SourceText } from './textOfSource.ts'
import { windowOn } from './window.ts'

function rawRow(text: string, line: number, header: readonly string[], kind: TableKind): RawRow {
  const cells = csvCells(text)
  // The header holds known names only, so an ordinary object does, and its fields are found faster.
  const fields: Record<string, string> = {}
  for (let at = 0; at < header.length; at++) fields[header[at] ?? ''] = cells[at] ?? ''
  if (cells.length === header.length) return { kind, line, text, fields, refusal: null }
  const detail = `${cells.length === 1 ? '1 field' : `${cells.length} fields`} where the header has ${header.length}`
  const reason = cells.length > header.length ? 'row-too-long' : 'row-too-short'
  return { kind, line, text, fields, refusal: problem(reason, { column: '', text, detail }) as RefusedRow }
}

const needsUnit = (row: RawRow): boolean => {
  const analyte = analyteOfCode(field(row, 'code'))
  return analyte !== null && analyteUnit(analyte) !== null && analyteUnit(analyte)?.kept !== '1'
}

function anyNeedsUnit(rows: Iterable<RawRow>): boolean {
  for (const row of rows) if (needsUnit(row)) return true
  return false
}

/**
 * Opens one of the three CSV files; which of them is told from its header. Every record after the header is a row, an empty line in between too (it is
 * too short). Kept are the places of the records, eight bytes for each. `fileName` only names the file in sentences. Never throws on what the file says.
 */
export function openCsv(source: ByteSource, text: SourceText, fileName: string): OpenTable {
  const places = csvPlaces(source, text, fileName)
  if (!places.ok) return places
  const { count, begins, lines } = places
  const bytesAt = windowOn(source)
  const lineEnd = String.fromCharCode(text.lineEnd)
  const recordAt = (at: number): string => {
    const whole = bytesAt(begins[at] ?? 0, begins[at + 1] ?? 0).toString('utf8')
    const bare = whole.endsWith(lineEnd) ? whole.slice(0, -1) : whole
    return bare.endsWith('\r') ? bare.slice(0, -1) : bare
  }
  const header = csvCells(recordAt(0)).map((name) => name.trim())
  const kind = tableKind(header, fileName)
  if (typeof kind !== 'string') return kind
  const rowAt = (place: number): RawRow => {
    if (!Number.isInteger(place) || place < 0 || place + 1 >= count) throw new RangeError(`There is no row at place ${place}.`)
    return rawRow(recordAt(place + 1), lines[place + 1] ?? 0, header, kind)
  }
  function* rows(): Generator<RawRow> {
    for (let place = 0; place + 1 < count; place++) yield rowAt(place)
  }
  if (kind === 'results' && !header.includes('unit') && anyNeedsUnit(rows())) {
    return refusedFile('missing-column', `${fileName} has no column unit; results of an analyte that has a unit need it.`)
  }
  return { ok: true, kind, count: count - 1, rows, rowAt }
}
