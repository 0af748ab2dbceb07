import type { Sample } from '../course/index.ts'
import type { Comparator } from '../results/index.ts'
import { type Decimal, decimalText, type Interval, isExact } from '../units/index.ts'

/** Units as a reader can say them; any other is printed as it came. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  '%': 'of 100 cells',
  'mg/(24.h)': 'mg in 24 hours',
  'g/(24.h)': 'g in 24 hours',
  'mg/24 h': 'mg in 24 hours',
  '10*9/L': 'billion in a litre',
  '10*3/uL': 'thousand in a µL',
  '/uL': 'in a µL',
  'umol/L': 'µmol/L',
  '1': '',
}

export function unitWords(unit: string): string {
  return UNIT_WORDS[unit] ?? unit
}

/** A number as it stands on a report; anything else (another decimal sign, blanks, a comparator) is written from the exact decimal. */
const AS_REPORTED = /^\d+(\.\d+)?$/

/** The end of an interval that is known. */
function knownEnd(of: Interval): Decimal {
  return isExact(of) ? of.low : (of.high ?? of.low)
}

function limitText(of: Interval, comparator: Comparator | null, unit: string): string {
  const at = `${decimalText(knownEnd(of))} ${unit}`.trim()
  if (of.high === null) return comparator === '>' ? `more than ${at}` : `${at} or more`
  return comparator === '<' ? `too little to measure (less than ${at})` : `too little to measure (${at} or less)`
}

/**
 * A sample as the sheet prints it, exact: the number as the laboratory printed it with its unit, or, where the values beside it come in other units, in
 * the unit kept. A value known as a limit is said in words with the limit.
 */
export function valueText(sample: Sample, as: 'printed' | 'kept', keptUnit: string): string {
  const { value, printed, comparator, results } = sample
  const [own] = results
  if (own?.value.kind === 'not-detected') return 'none found'
  if (own?.value.kind === 'present' || value === null) return 'a trace, too little to measure'
  const isPrinted = as === 'printed' && printed !== null
  const of = isPrinted ? printed.printed : value
  const unit = unitWords(isPrinted ? printed.printedUnit : keptUnit)
  if (!isExact(of)) return limitText(of, comparator, unit)
  const received = own?.provenance.valueText ?? ''
  return `${isPrinted && AS_REPORTED.test(received) ? received : decimalText(of.low)} ${unit}`.trim()
}

/** Do these samples stand in more than one unit? Words have none. */
export function unitsDiffer(samples: readonly Sample[]): boolean {
  return new Set(samples.flatMap(({ printed }) => printed?.printedUnit ?? [])).size > 1
}
