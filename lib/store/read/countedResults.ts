import type { Analyte, LabResult, Measured, ReferenceLimit, ResultStatus } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import { type MeasuredColumns, measuredColumns, measuredOf } from '../rows/measured.ts'
import { limitColumns, limitOf, type NewResult } from '../rows/result.ts'

/** The columns of a row, in the order they are asked for. */
type Row = readonly [
  id: number,
  analyte: string,
  code: string,
  collectedAt: string,
  collectedOn: string,
  collectedOrder: number,
  status: string,
  version: number,
  accession: string | null,
  laboratory: string | null,
  method: string | null,
  lowKept: string | null,
  lowPrinted: string | null,
  highKept: string | null,
  highPrinted: string | null,
  valueText: string,
  unitText: string,
  fileId: number,
  line: number,
  kind: string,
  comparator: string | null,
  keptLow: string | null,
  keptHigh: string | null,
  printedLow: string | null,
  printedHigh: string | null,
  printedUnit: string | null,
  reading: string | null,
  noneReason: string | null,
  upTo: string | null,
]

// One text for all rows of a patient: the driver hands over a cell of its own more slowly than a parser finds it. And in no order: rows mostly come as they
// were collected, which a sort here sees at once, while SQLite would copy each whole row to sort it.
const CURRENT = `SELECT json_group_array(json_array(id, analyte, code, collected_at, collected_on, collected_order, status, version, accession, laboratory,
  method, reference_low_kept, reference_low_printed, reference_high_kept, reference_high_printed, value_text, unit_text, file_id, line,
  kind, comparator, kept_low, kept_high, printed_low, printed_high, printed_unit, reading, none_reason, up_to)) AS rows
  FROM result WHERE patient_id = ? AND current = 1 AND status NOT IN ('cancelled', 'entered-in-error')`

const MOST_REMEMBERED = 50_000

/** What was read before, by its texts: laboratories print the same values, and limits, again and again. */
function remembered<T>(): (key: string, read: () => T) => T {
  const known = new Map<string, T>()
  return (key, read) => {
    const before = known.get(key)
    if (before !== undefined) return before
    if (known.size >= MOST_REMEMBERED) known.clear()
    const value = read()
    known.set(key, value)
    return value
  }
}

const values = remembered<Measured>()
const limits = remembered<ReferenceLimit | null>()

function limit(kept: string | null, printed: string | null): ReferenceLimit | null {
  return kept === null ? null : limits(`${kept} ${printed}`, () => limitOf(kept, printed))
}

function measured(columns: MeasuredColumns): Measured {
  if (columns.kind !== 'number') return measuredOf(columns)
  const { comparator, kept_low, kept_high, printed_low, printed_high, printed_unit } = columns
  return values(`${comparator} ${kept_low} ${kept_high} ${printed_low} ${printed_high} ${printed_unit}`, () => measuredOf(columns))
}

// The columns collected_order and id.
const oldestFirst = (a: Row, b: Row): number => a[5] - b[5] || a[0] - b[0]

function resultOf(row: Row): LabResult {
  const [id, analyte, code, text, on, order, status, version, accession, laboratory, method] = row
  const columns: MeasuredColumns = {
    kind: row[19],
    comparator: row[20],
    kept_low: row[21],
    kept_high: row[22],
    printed_low: row[23],
    printed_high: row[24],
    printed_unit: row[25],
    reading: row[26],
    none_reason: row[27],
    up_to: row[28],
  }
  return {
    id,
    analyte: analyte as Analyte,
    code,
    collected: { text, on: on as Day, order },
    status: status as ResultStatus,
    value: measured(columns),
    accession,
    laboratory,
    method,
    referenceLow: limit(row[11], row[12]),
    referenceHigh: limit(row[13], row[14]),
    reportedAt: null,
    version,
    provenance: { fileId: row[17], fileName: '', line: row[18], valueText: row[15], unitText: row[16] },
  }
}

// By what was read from the file, which many rows share.
const valuesOnce = new WeakMap<Measured, Measured>()
const limitsOnce = new WeakMap<ReferenceLimit, ReferenceLimit | null>()

function valueOnce(value: Measured): Measured {
  const before = valuesOnce.get(value)
  if (before !== undefined) return before
  const once = measured(measuredColumns(value))
  valuesOnce.set(value, once)
  return once
}

function limitOnce(read: ReferenceLimit | null): ReferenceLimit | null {
  if (read === null) return null
  const before = limitsOnce.get(read)
  if (before !== undefined) return before
  const { kept, printed } = limitColumns(read)
  const once = limit(kept, printed)
  limitsOnce.set(read, once)
  return once
}

/** A version that is not stored yet, as `countedResults` will read it once it is, under this number. */
export function countedOnceStored({ result, provenance: { fileId, line, valueText, unitText } }: NewResult, id: number): LabResult {
  return {
    id,
    analyte: result.analyte,
    code: result.code,
    collected: result.collected,
    status: result.status,
    value: valueOnce(result.value),
    accession: result.accession,
    laboratory: result.laboratory,
    method: result.method,
    referenceLow: limitOnce(result.referenceLow),
    referenceHigh: limitOnce(result.referenceHigh),
    reportedAt: null,
    version: result.version,
    provenance: { fileId, fileName: '', line, valueText, unitText },
  }
}

/**
 * The results of a patient that count, oldest first, as everything that evaluates a course asks for them, and read in a third of the time: without the name of the
 * file and the time of the report, which decide nothing once it is known which version counts.
 */
export function countedResults({ statement }: Connection, patientId: string): LabResult[] {
  const text = statement<{ readonly rows: string }>(CURRENT).get(patientId)?.rows ?? '[]'
  return (JSON.parse(text) as Row[]).sort(oldestFirst).map(resultOf)
}
