import { z } from 'zod'
import { type Comparator, type Immunofixation, type Measured, readImmunofixation } from '../../results/index.ts'
import { decimalOrNull, intervalOf, textOrNull } from './decimals.ts'
import type { ResultColumns } from './resultColumns.ts'

const BAND = z.strictObject({ heavy: z.enum(['G', 'A', 'M', 'D', 'E']).nullable(), light: z.enum(['kappa', 'lambda']).nullable() })

const READING: z.ZodType<Immunofixation> = z.discriminatedUnion('reading', [
  z.strictObject({ reading: z.literal('negative') }),
  z.strictObject({ reading: z.literal('positive'), bands: z.array(BAND) }),
  z.strictObject({ reading: z.literal('cannot-exclude') }),
  z.strictObject({ reading: z.literal('unread'), text: z.string() }),
])

// What an earlier reader did not understand this one may: so the same file sent again stays known, and no reading grows old in the database.
function readAgain(reading: Immunofixation): Immunofixation {
  return reading.reading === 'unread' ? readImmunofixation(reading.text) : reading
}

const NOTHING = {
  comparator: null,
  kept_low: null,
  kept_high: null,
  printed_low: null,
  printed_high: null,
  printed_unit: null,
  reading: null,
  none_reason: null,
  up_to: null,
} as const

export type MeasuredColumns = Pick<ResultColumns, 'kind' | keyof typeof NOTHING>

function columnsOf(value: Measured): MeasuredColumns {
  switch (value.kind) {
    case 'number':
      return {
        ...NOTHING,
        kind: 'number',
        comparator: value.comparator,
        kept_low: textOrNull(value.kept.low),
        kept_high: textOrNull(value.kept.high),
        printed_low: textOrNull(value.printed.low),
        printed_high: textOrNull(value.printed.high),
        printed_unit: value.printedUnit,
      }
    case 'present':
      return { ...NOTHING, kind: 'present', up_to: textOrNull(value.upTo) }
    case 'immunofixation':
      return { ...NOTHING, kind: 'immunofixation', reading: JSON.stringify(value.reading) }
    case 'none':
      return { ...NOTHING, kind: 'none', none_reason: value.reason }
    case 'not-detected':
      return { ...NOTHING, kind: 'not-detected' }
  }
}

// Many rows of a file have one value, read once (`remembered` of intake): its decimals are written once too.
const known = new WeakMap<Measured, MeasuredColumns>()

/** A measured value as columns; those its kind does not use are null. */
export function measuredColumns(value: Measured): MeasuredColumns {
  const before = known.get(value)
  if (before !== undefined) return before
  const columns = columnsOf(value)
  known.set(value, columns)
  return columns
}

/** The measured value a row holds. Throws where the row was changed by another program into what no value can be. */
export function measuredOf(row: MeasuredColumns): Measured {
  switch (row.kind) {
    case 'number': {
      if (row.kept_low === null || row.printed_low === null || row.printed_unit === null) break
      const kept = intervalOf(row.kept_low, row.kept_high)
      const printed = intervalOf(row.printed_low, row.printed_high)
      return { kind: 'number', comparator: row.comparator as Comparator | null, kept, printed, printedUnit: row.printed_unit }
    }
    case 'not-detected':
      return { kind: 'not-detected' }
    case 'present':
      return { kind: 'present', upTo: decimalOrNull(row.up_to) }
    case 'immunofixation':
      return { kind: 'immunofixation', reading: readAgain(READING.parse(JSON.parse(row.reading ?? 'null'))) }
    case 'none':
      return { kind: 'none', reason: row.none_reason ?? '' }
  }
  throw new Error(`A stored result of kind "${row.kind}" lacks its value.`)
}
