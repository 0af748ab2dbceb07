import type { Analyte, LabResult, Provenance, ReferenceLimit, ResultStatus } from '../../results/index.ts'
import { type Day, type Moment, parseMoment } from '../../time/index.ts'
import { decimal, decimalText } from '../../units/index.ts'
import { measuredColumns, measuredOf } from './measured.ts'
import type { RESULT_COLUMNS, ResultColumns } from './resultColumns.ts'

/** A result version to be stored: everything but the number the database gives it and the name of its file. */
export interface NewResult {
  readonly patientId: string
  /** What makes two reports the same result; the version counts within it. */
  readonly identity: string
  readonly result: Omit<LabResult, 'id' | 'provenance'>
  readonly provenance: Omit<Provenance, 'fileName'>
}

/** One stored version of a result. */
export interface StoredResult {
  readonly patientId: string
  readonly identity: string
  readonly current: boolean
  readonly result: LabResult
}

type ResultCell = ResultColumns[(typeof RESULT_COLUMNS)[number]]
/** One cell for each of these columns, in their order. */
type CellsOf<Columns extends readonly (keyof ResultColumns)[]> = { readonly [At in keyof Columns]: ResultColumns[Columns[At]] }

export function limitOf(kept: string | null, printed: string | null): ReferenceLimit | null {
  return kept === null || printed === null ? null : { kept: decimal(kept), printed: decimal(printed) }
}

const NO_LIMIT = { kept: null, printed: null } as const
const limitTexts = new WeakMap<ReferenceLimit, { readonly kept: string; readonly printed: string }>()

/** A limit as columns; the decimals of one that many rows share are written once. */
export function limitColumns(limit: ReferenceLimit | null): { readonly kept: string | null; readonly printed: string | null } {
  if (limit === null) return NO_LIMIT
  const before = limitTexts.get(limit)
  if (before !== undefined) return before
  const texts = { kept: decimalText(limit.kept), printed: decimalText(limit.printed) }
  limitTexts.set(limit, texts)
  return texts
}

/** The cells of a new row, in the order of `RESULT_COLUMNS`: a list, because an object with a name for each takes a large file longer than its statement. */
export function resultCells({ patientId, identity, result, provenance }: NewResult, current: boolean): readonly ResultCell[] {
  const { collected } = result
  const measured = measuredColumns(result.value)
  const [low, high] = [limitColumns(result.referenceLow), limitColumns(result.referenceHigh)]
  return [
    patientId,
    identity,
    result.version,
    current ? 1 : 0,
    result.code,
    result.analyte,
    collected.text,
    collected.on,
    collected.order,
    result.status,
    measured.kind,
    measured.comparator,
    measured.kept_low,
    measured.kept_high,
    measured.printed_low,
    measured.printed_high,
    measured.printed_unit,
    measured.reading,
    measured.none_reason,
    measured.up_to,
    result.accession,
    result.laboratory,
    result.method,
    low.kept,
    low.printed,
    high.kept,
    high.printed,
    result.reportedAt?.text ?? null,
    provenance.valueText,
    provenance.unitText,
    provenance.fileId,
    provenance.line,
  ] satisfies CellsOf<typeof RESULT_COLUMNS>
}

/** The result a row holds; `file_name` comes from the file's own row. */
export function storedResult(row: ResultColumns & { readonly file_name: string }): StoredResult {
  const collected: Moment = { text: row.collected_at, on: row.collected_on as Day, order: row.collected_order }
  const result: LabResult = {
    id: row.id,
    analyte: row.analyte as Analyte,
    code: row.code,
    collected,
    status: row.status as ResultStatus,
    value: measuredOf(row),
    accession: row.accession,
    laboratory: row.laboratory,
    method: row.method,
    referenceLow: limitOf(row.reference_low_kept, row.reference_low_printed),
    referenceHigh: limitOf(row.reference_high_kept, row.reference_high_printed),
    reportedAt: row.reported_at === null ? null : parseMoment(row.reported_at),
    version: row.version,
    provenance: { fileId: row.file_id, fileName: row.file_name, line: row.line, valueText: row.value_text, unitText: row.unit_text },
  }
  return { patientId: row.patient_id, identity: row.identity, current: row.current === 1, result }
}
