import { changeBetween, type Mark } from '../../course/index.ts'
import { type Decimal, decimal, decimalText, difference, type Interval, isExact, roundedText } from '../../units/index.ts'

const HUNDRED = decimal('100')

/** With its sign: "+5", "-1.5", "0". A rounded nothing has no sign. */
function signed(text: string): string {
  if (Number(text) === 0) return text.replace('-', '')
  return text.startsWith('-') ? text : `+${text}`
}

function range({ low, high }: Interval, text: (end: Decimal) => string, unit: string): string {
  return `${high === null ? `at least ${text(low)}` : `between ${text(low)} and ${text(high)}`} ${unit}`
}

// Where the value is known only as a limit, every change it leaves possible; the per cent of them where the reference is one number above 0.
function rangeText(value: Interval, reference: Interval, unit: string): string | null {
  const change = difference(value, reference)
  if (change === null) return null
  const text = range(change, (end) => signed(decimalText(end)), unit)
  if (!isExact(reference) || reference.low.lte(0)) return text
  return `${text}, ${range(change, (end) => signed(roundedText(end.times(HUNDRED).div(reference.low), 1)), '%')}`
}

/**
 * The exact change from a reference in words: "+5 g/L, +50.0 %"; where either is known only as a limit the range it leaves possible; where the
 * reference is 0 the difference and why there is no percentage.
 */
export function changeText(value: Interval, reference: Mark, unit: string): string {
  const { absolute, percent, why } = changeBetween(value, reference, unit)
  if (absolute !== null && percent !== null) return `${signed(absolute)} ${unit}, ${signed(percent)} %`
  if (!isExact(value) || !isExact(reference.value)) return rangeText(value, reference.value, unit) ?? `no change told: ${why}`
  return `${signed(absolute ?? '')} ${unit}, no per cent: ${why}`
}
