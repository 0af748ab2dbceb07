import { type Analyte, type Measured, readImmunofixation } from '../results/index.ts'
import { decimal, decimalText, exactly, type Interval, scaled, type UnitReading, unitFactor } from '../units/index.ts'
import { analyteUnit } from './analyteUnit.ts'
import { type NumberText, readNumber } from './numberText.ts'
import type { Problem } from './reason.ts'
import { remembered } from './remembered.ts'
import { isProblem } from './row.ts'
import { problem } from './sentences.ts'
import { isInside, valueRange } from './valueRange.ts'
import { readWords } from './valueWords.ts'

type Readable = Extract<UnitReading, { ok: true }>

/** The unit of a row for its analyte, or why it does not convert. */
export function readUnit(unitText: string, analyte: Analyte): Readable | Problem {
  const unit = analyteUnit(analyte)
  if (unit === null) return { ok: true, factor: decimal(1), ucum: '' }
  const reading = unitFactor(unitText, unit.kept, unit.bridge)
  if (reading.ok) return reading
  const about = { column: 'unit', text: unitText, detail: unit.kept }
  return problem(unitText === '' ? 'unit-missing' : reading.reason, about)
}

function printedInterval({ comparator, value }: NumberText): Interval {
  if (comparator === null) return exactly(value)
  return comparator.startsWith('<') ? { low: decimal(0), high: value } : { low: value, high: null }
}

function measuredNumber(analyte: Analyte, text: string, unitText: string, number: NumberText): Measured | Problem {
  if (number.value.lt(0)) return problem('negative', { column: 'value', text })
  if (number.comparator === '<' && number.value.eq(0)) return problem('value-unreadable', { column: 'value', text })
  const unit = readUnit(unitText, analyte)
  if (isProblem(unit)) return unit
  const printed = printedInterval(number)
  const kept = scaled(printed, unit.factor)
  const range = valueRange(analyte)
  if (range !== null && !isInside(range, kept, number.comparator)) {
    const keptUnit = analyteUnit(analyte)?.kept ?? ''
    const detail = `${decimalText(range.least)} to ${decimalText(range.greatest)} ${keptUnit} for ${analyte}`
    return problem('out-of-range', { column: 'value', text: `${text} ${unitText}`.trim(), detail })
  }
  return { kind: 'number', comparator: number.comparator, printed, kept, printedUnit: unit.ucum }
}

function measuredWords(analyte: Analyte, text: string, unitText: string): Measured | Problem {
  const words = readWords(analyte, text)
  if (words === null) return problem('value-unreadable', { column: 'value', text, detail: `a number or words that are known for ${analyte}` })
  if (words.kind === 'none') return words
  // Words need no unit, but a concentration stays the wrong quantity for the day's urine whatever it says.
  const unit = unitText === '' && (words.kind === 'not-detected' || words.limitText === null) ? null : readUnit(unitText, analyte)
  if (isProblem(unit)) return unit
  if (words.kind === 'not-detected') return words
  if (words.limitText === null || unit === null) return { kind: 'present', upTo: null }
  const limit = readNumber('value', words.limitText)
  if (limit === null || isProblem(limit)) return problem('value-unreadable', { column: 'value', text })
  return { kind: 'present', upTo: limit.value.times(unit.factor) }
}

function readAfresh(analyte: Analyte, text: string, unitText: string): Measured | Problem {
  if (analyteUnit(analyte) === null) {
    const words = readWords(analyte, text)
    return words?.kind === 'none' ? words : { kind: 'immunofixation', reading: readImmunofixation(text) }
  }
  const number = readNumber('value', text)
  if (isProblem(number)) return number
  return number === null ? measuredWords(analyte, text, unitText) : measuredNumber(analyte, text, unitText, number)
}

const measuredBefore = remembered<Measured | Problem>((analyte, text, unitText) => readAfresh(analyte as Analyte, text, unitText))

/** What a value and its unit say of an analyte; a problem where they say nothing certain. Nothing is guessed and nothing is read in part. */
export function readMeasured(analyte: Analyte, text: string, unitText: string): Measured | Problem {
  return measuredBefore(analyte, text, unitText)
}
