import Big from 'big.js'

/** An exact decimal number. Sums, differences and products are exact; nothing here passes through binary floating point. */
export type Decimal = Big

const PLAIN = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,2})?$/

/** Reads a decimal as written with a point (`14.2`, `.5`, `1.2e1`). Null for anything else: NaN, Infinity, hexadecimal, commas, empty text. */
export function parseDecimal(text: string): Decimal | null {
  return PLAIN.test(text) ? new Big(text.replace(/^\+/, '')) : null
}

/** The number `text` spells. Throws RangeError where it spells none. */
export function decimal(text: string | number): Decimal {
  const parsed = parseDecimal(String(text))
  if (parsed === null) throw new RangeError(`"${text}" is not a decimal number`)
  return parsed
}

/** Plain digits without exponent and without trailing zeros: 15.0 and 15 are the same text. */
export function decimalText(value: Decimal): string {
  return value.eq(0) ? '0' : value.toFixed()
}

/** Rounded to `places` decimals, half away from zero. */
export function roundedText(value: Decimal, places: number): string {
  return value.round(places, Big.roundHalfUp).toFixed(places)
}

export function smaller(a: Decimal, b: Decimal): Decimal {
  return a.lte(b) ? a : b
}

export function larger(a: Decimal, b: Decimal): Decimal {
  return a.gte(b) ? a : b
}
