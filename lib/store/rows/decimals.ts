import { type Decimal, decimal, decimalText, type Interval } from '../../units/index.ts'

/** A decimal as the database keeps it: canonical text, or null. */
export function textOrNull(value: Decimal | null): string | null {
  return value === null ? null : decimalText(value)
}

/** The decimal a column holds, or null. */
export function decimalOrNull(text: string | null): Decimal | null {
  return text === null ? null : decimal(text)
}

/** The interval two columns hold; an empty upper end is open. */
export function intervalOf(low: string, high: string | null): Interval {
  const least = decimal(low)
  return { low: least, high: high === low ? least : decimalOrNull(high) }
}
