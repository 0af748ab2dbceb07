import { type Course, hasNumber } from '../../course/index.ts'
import type { Analyte, History, LabResult, Quantity } from '../../results/index.ts'
import { addDays, type Day, laterDay, parseMoment } from '../../time/index.ts'
import { type Decimal, decimal, decimalText, exactly, isExact, roundedText } from '../../units/index.ts'

type Number = Extract<LabResult['value'], { kind: 'number' }>

/** What a next sample could show: one analyte in the unit it was last printed in, and what is measured beside it, as last. */
export interface Subject {
  readonly analyte: Analyte
  readonly printedUnit: string
  /** Printed times this is the unit kept. Exact. */
  readonly factor: Decimal
  /** Decimals of the printed values: the next value is one of the numbers a report of this laboratory can hold. */
  readonly decimals: number
  readonly last: LabResult
  /** The last printed number; of a limit the end that is known. */
  readonly lastPrinted: Decimal
  readonly beside: readonly LabResult[]
  /** True where low is bad. */
  readonly low: boolean
  /** The day it is taken on: today, or the day after a sample of today, because two samples are two days. */
  readonly on: Day
}

const LOW_IS_BAD: readonly Analyte[] = ['haemoglobin', 'platelets', 'neutrophils', 'albumin']
/** Of so many results of the unit the one with the most decimals decides: a laboratory that prints 15.2 prints 15 too. */
const LOOKED_AT = 5

function printedNumber(result: LabResult): Number | null {
  return result.value.kind === 'number' ? result.value : null
}

function decimalsOf(result: LabResult): number {
  const text = /^\D*\d+[.,](\d+)\D*$/.exec(result.provenance.valueText)?.[1]
  const value = printedNumber(result)?.printed
  const shown = value === undefined ? '' : (decimalText(value.high ?? value.low).split('.')[1] ?? '')
  return Math.max(text?.length ?? 0, shown.length)
}

/** The exact factor from the unit printed to the unit kept; null where the numbers do not tell it. */
function factorOf({ printed, kept }: Quantity): Decimal | null {
  const [from, to] = [printed.high ?? printed.low, kept.high ?? kept.low]
  if (from.lte(0)) return null
  const factor = to.div(from)
  return from.times(factor).eq(to) ? factor : null
}

const numbersOf = (course: Course, analyte: Analyte): readonly LabResult[] =>
  course
    .samplesOf(analyte)
    .flatMap((sample) => (sample.printed === null ? [] : sample.results.filter((result) => result.analyte === analyte).slice(0, 1)))

/** What is measured with it in one sample: the other chain; the albumin of a calcium. As last, so that only one number moves. */
function besideOf(course: Course, analyte: Analyte, last: LabResult): readonly LabResult[] {
  const other = analyte === 'kappa-flc' ? 'lambda-flc' : analyte === 'lambda-flc' ? 'kappa-flc' : analyte === 'calcium' ? 'albumin' : null
  if (other === null) return []
  const sample = course.samplesOf(other).filter(hasNumber).at(-1)
  const result = sample?.results.find((one) => one.analyte === other)
  if (sample === undefined || result === undefined) return []
  return other === 'albumin' && sample.on !== last.collected.on ? [] : [result]
}

/** A next sample of an analyte; null where no number of it was ever printed. */
export function subjectOf(course: Course, analyte: Analyte): Subject | null {
  const results = numbersOf(course, analyte)
  const last = results.at(-1)
  const value = last === undefined ? null : printedNumber(last)
  if (last === undefined || value === null) return null
  const alike = results.filter((result) => printedNumber(result)?.printedUnit === value.printedUnit)
  const factor = alike
    .toReversed()
    .map((result) => factorOf(result.value as Number))
    .find((found) => found !== null)
  if (factor === undefined || factor === null) return null
  const newest = course.samplesOf(analyte).at(-1)?.on ?? last.collected.on
  return {
    analyte,
    printedUnit: value.printedUnit,
    factor,
    decimals: Math.max(...alike.slice(-LOOKED_AT).map(decimalsOf)),
    last,
    lastPrinted: value.printed.high ?? value.printed.low,
    beside: besideOf(course, analyte, last),
    low: LOW_IS_BAD.includes(analyte),
    on: laterDay(course.today, addDays(newest, 1)),
  }
}

/** The number `steps` smallest printed steps above 0, as printed. */
export function printedAt({ decimals }: Subject, steps: number): Decimal {
  return decimal(steps).times(decimal(`1e-${decimals}`))
}

/** The same with the decimals a report has: 15.0. */
export function printedText(subject: Subject, steps: number): string {
  return roundedText(printedAt(subject, steps), subject.decimals)
}

/** Steps of a value in the unit kept, rounded up to what can be printed. */
export function stepsAtLeast({ factor, decimals }: Subject, kept: Decimal): number {
  const exact = kept.div(factor).times(decimal(`1e${decimals}`))
  const whole = Math.floor(Number(exact))
  return decimal(whole)
    .times(decimal(`1e-${decimals}`))
    .times(factor)
    .gte(kept)
    ? whole
    : whole + 1
}

function taken(result: LabResult, on: Day, id: number, value: LabResult['value'], text: string): LabResult {
  const collected = parseMoment(on)
  if (collected === null) throw new RangeError(`"${on}" is no day`)
  return {
    ...result,
    id,
    collected,
    status: 'final',
    version: 1,
    accession: null,
    reportedAt: null,
    value,
    provenance: { ...result.provenance, valueText: text },
  }
}

/** A result as the one before, taken on another day. */
export function repeated(result: LabResult, on: Day, id: number): LabResult {
  return taken(result, on, id, result.value, result.provenance.valueText)
}

/** Numbers of results that are in no history. */
export function freeId({ results }: History): number {
  return results.reduce((most, { id }) => Math.max(most, id), 0) + 1
}

/** The history as if the next sample had come and shown so many steps. */
export function withNext(history: History, subject: Subject, steps: number): History {
  const { last, printedUnit, factor, on, beside } = subject
  const printed = exactly(printedAt(subject, steps))
  const kept = exactly(printed.low.times(factor))
  if (!isExact(kept)) throw new RangeError('a next value is a number')
  const id = freeId(history)
  const value = { kind: 'number', comparator: null, printed, printedUnit, kept } as const
  const next = taken(last, on, id, value, printedText(subject, steps))
  // A pair of light chains is of one laboratory.
  const others = beside.map((result, at) => ({ ...repeated(result, on, id + 1 + at), laboratory: last.laboratory }))
  return { ...history, results: [...history.results, next, ...others] }
}
