import type { Sample } from '../course/index.ts'
import { type Decimal, decimalText, type Interval, isExact } from '../units/index.ts'

/** Where a value is drawn, and on which side of that place the true value lies. */
export interface Drawn {
  readonly at: Decimal
  readonly censored: 'below' | 'above' | null
}

/** A number is drawn where it is, `<1` at 1 and `>5000` at 5000: at the end of the interval that is known. */
export function drawnAt(value: Interval): Drawn {
  if (isExact(value)) return { at: value.low, censored: null }
  return value.high === null ? { at: value.low, censored: 'above' } : { at: value.high, censored: 'below' }
}

/** For drawing only: nothing is compared on it. */
export function drawingNumber(value: Decimal): number {
  return Number(value.toString())
}

/** An interval as a laboratory writes it: `14.2`, `<1`, `>5000`. */
export function intervalText(value: Interval, comparator: string | null): string {
  const { at, censored } = drawnAt(value)
  const sign = censored === null ? '' : (comparator ?? (censored === 'below' ? '<=' : '>='))
  return `${sign}${decimalText(at)}`
}

/** A sample's value in the unit kept, without its unit: a number, or the words of a sample that has none ("not detected", "trace"). */
export function keptLabel({ value, words, comparator }: Sample): string {
  return words ?? (value === null ? 'no number' : intervalText(value, comparator))
}

/** The value as the laboratory printed it, unit included; null where it printed the unit kept, or words. */
export function printedLabel({ printed, comparator }: Sample, keptUnit: string): string | null {
  if (printed === null || sameUnit(printed.printedUnit, keptUnit)) return null
  return `${intervalText(printed.printed, comparator)} ${printed.printedUnit}`
}

// UCUM writes "24 h" as "(24.h)"; the pages write it in words.
function sameUnit(printed: string, kept: string): boolean {
  return printed === kept || printed.replace('(24.h)', '24 h') === kept
}

/** True for a sample made from a corrected report. */
export function isCorrected({ results }: Sample): boolean {
  const [own] = results
  return own !== undefined && (own.status === 'corrected' || own.version > 1)
}
