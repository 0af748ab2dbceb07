import { type Analyte, type LabResult, type Measured, type ReferenceLimit, type ResultStatus, readImmunofixation } from '../../lib/results/index.ts'
import { type Moment, parseMoment } from '../../lib/time/index.ts'
import { type Decimal, decimal, type Interval } from '../../lib/units/index.ts'

/** One result in few words: collection day or time, analyte, value as a laboratory prints it, printed unit (the kept one when left out), the rest. */
export type ResultRow = readonly [on: string, analyte: Analyte, value: string, unit?: string, more?: ResultMore]

export interface ResultMore {
  readonly id?: number
  readonly laboratory?: string | null
  readonly method?: string | null
  readonly accession?: string | null
  /** The laboratory's limits, in the printed unit. */
  readonly referenceLow?: string
  readonly referenceHigh?: string
  /** For "trace": the limit the report names, in the kept unit. */
  readonly upTo?: string
  readonly status?: ResultStatus
  readonly version?: number
}

const MASS_PER_VOLUME = { 'g/L': '1', 'g/dL': '10', 'mg/dL': '0.01' }
const LIGHT_CHAIN = { 'mg/L': '1', 'mg/dL': '10' }
const CELLS = { '10*9/L': '1', '10*3/uL': '1' }

/** Printed units of each analyte and their factor to the kept one, the kept one first (clinical.md 1.3). */
const FACTORS: Record<Analyte, Readonly<Record<string, string>>> = {
  'serum-m-protein': MASS_PER_VOLUME,
  'urine-m-protein': { 'mg/(24.h)': '1', 'g/(24.h)': '1000' },
  'kappa-flc': LIGHT_CHAIN,
  'lambda-flc': LIGHT_CHAIN,
  'flc-ratio': { '1': '1' },
  igg: MASS_PER_VOLUME,
  iga: MASS_PER_VOLUME,
  igm: MASS_PER_VOLUME,
  igd: LIGHT_CHAIN,
  ige: { '[IU]/mL': '1' },
  haemoglobin: { 'g/L': '1', 'g/dL': '10', 'mmol/L': '16.114' },
  'white-cells': CELLS,
  neutrophils: CELLS,
  platelets: CELLS,
  calcium: { 'mmol/L': '1', 'mg/dL': '0.2495' },
  'ionised-calcium': { 'mmol/L': '1', 'mg/dL': '0.2495' },
  albumin: MASS_PER_VOLUME,
  'total-protein': MASS_PER_VOLUME,
  creatinine: { 'umol/L': '1', 'mg/dL': '88.4' },
  'b2-microglobulin': { 'mg/L': '1', 'ug/mL': '1' },
  ldh: { 'U/L': '1' },
  'alkaline-phosphatase': { 'U/L': '1' },
  'marrow-plasma-cells': { '%': '1' },
  'circulating-plasma-cells': { '%': '1' },
  'serum-immunofixation': { '': '1' },
  'urine-immunofixation': { '': '1' },
}

/** The printed units a result of this analyte may carry, the kept one first. */
export function printedUnits(analyte: Analyte): readonly string[] {
  return Object.keys(FACTORS[analyte])
}

function factorOf(analyte: Analyte, unit: string): Decimal {
  const factor = FACTORS[analyte][unit]
  if (factor === undefined) throw new Error(`${analyte} is not printed in "${unit}"`)
  return decimal(factor)
}

function times(of: Interval, factor: Decimal): Interval {
  return { low: of.low.times(factor), high: of.high?.times(factor) ?? null }
}

function measured(analyte: Analyte, text: string, unit: string, upTo: string | undefined): Measured {
  if (analyte.endsWith('immunofixation')) return { kind: 'immunofixation', reading: readImmunofixation(text) }
  const match = /^(<=|>=|<|>)?\s*(\d+(?:\.\d+)?)$/.exec(text)
  if (match?.[2] !== undefined) {
    const comparator = (match[1] ?? null) as '<' | '<=' | '>' | '>=' | null
    const at = decimal(match[2])
    const printed =
      comparator === null ? { low: at, high: at } : comparator.startsWith('<') ? { low: decimal('0'), high: at } : { low: at, high: null }
    return { kind: 'number', comparator, printed, printedUnit: unit, kept: times(printed, factorOf(analyte, unit)) }
  }
  if (text === 'not detected') return { kind: 'not-detected' }
  if (['trace', 'faint', 'detected, not quantifiable'].includes(text)) return { kind: 'present', upTo: upTo === undefined ? null : decimal(upTo) }
  return { kind: 'none', reason: text }
}

function limit(text: string | undefined, factor: () => Decimal): ReferenceLimit | null {
  if (text === undefined) return null
  const printed = decimal(text)
  return { printed, kept: printed.times(factor()) }
}

function moment(text: string): Moment {
  const read = parseMoment(text)
  if (read === null) throw new Error(`"${text}" is no moment`)
  return read
}

/** Builds a stored result; `id` numbers it unless the row says otherwise. Throws on a unit the analyte is not printed in. */
export function labResult([on, analyte, value, unit = printedUnits(analyte)[0] ?? '', more = {}]: ResultRow, id = 1): LabResult {
  return {
    id: more.id ?? id,
    analyte,
    code: analyte,
    collected: moment(on),
    status: more.status ?? 'final',
    value: measured(analyte, value, unit, more.upTo),
    accession: more.accession ?? null,
    laboratory: more.laboratory === undefined ? 'North laboratory' : more.laboratory,
    method: more.method ?? null,
    referenceLow: limit(more.referenceLow, () => factorOf(analyte, unit)),
    referenceHigh: limit(more.referenceHigh, () => factorOf(analyte, unit)),
    reportedAt: null,
    version: more.version ?? 1,
    provenance: { fileId: 1, fileName: 'results.csv', line: id + 1, valueText: value, unitText: unit },
  }
}
