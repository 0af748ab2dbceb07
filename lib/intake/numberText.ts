import type { Comparator } from '../results/index.ts'
import { type Decimal, parseDecimal } from '../units/index.ts'
import type { Problem } from './reason.ts'
import { problem } from './sentences.ts'

/** A number as a report prints it, in the unit printed. */
export interface NumberText {
  readonly comparator: Comparator | null
  readonly value: Decimal
}

const COMPARED = /^(<=|>=|=<|=>|<|>|≤|≥|less than|greater than|more than)[ \t\u00a0]*(.*)$/is
const COMPARATORS = new Map<string, Comparator>([
  ['<', '<'],
  ['<=', '<='],
  ['=<', '<='],
  ['≤', '<='],
  ['less than', '<'],
  ['>', '>'],
  ['>=', '>='],
  ['=>', '>='],
  ['≥', '>='],
  ['greater than', '>'],
  ['more than', '>'],
])

/** Spellings of a machine, none of a laboratory: not a number, infinite, beyond any exponent, of another base, a spreadsheet's error. */
const NO_NUMBER = [
  /^[+-]?(s?nan|inf|infinity|∞)$/i,
  /^[+-]?1\.#\w+$/,
  /^[+-]?0[xob][\da-f_]+$/i,
  /^[+-]?(\d+\.?\d*|\.\d+)e[+-]?\d{3,}$/i,
  /^#(num|div\/0|value|n\/a|ref|name)[!?]?$/i,
]
const GROUPED = /^[+-]?\d{1,3}(([ ,'’\u00a0\u2009\u202f]\d{3})+([.,]\d*)?|(\.\d{3})+,\d*|(\.\d{3}){2,})$/
const WITH_COMMA = /^[+-]?\d*,\d+([eE][+-]?\d+)?$/
const LONGEST = 40
const LONGEST_TEXT = 200

/**
 * Reads a number with its comparator, exactly as spelt. Never reads part of a text: `12,5` is not 12, empty text is not 0. What is a number of
 * another convention is held; what no laboratory prints is refused; null for any other text.
 */
export function readNumber(column: string, text: string): NumberText | Problem | null {
  if (text.length > LONGEST_TEXT) return null
  const compared = COMPARED.exec(text)
  const body = compared?.[2] ?? text
  const comparator = COMPARATORS.get(compared?.[1]?.toLowerCase() ?? '') ?? null
  if (NO_NUMBER.some((form) => form.test(body))) return problem('not-a-number', { column, text })
  const value = body.length > LONGEST ? null : parseDecimal(body)
  if (value !== null) return { comparator, value }
  if (body.length > LONGEST && /^[+-]?[\d.]+(e[+-]?\d+)?$/i.test(body)) return problem('not-a-number', { column, text })
  if (/^[+-]?0,/.test(body) && WITH_COMMA.test(body)) return problem('decimal-comma', { column, text })
  if (GROUPED.test(body)) return problem('thousands-separator', { column, text })
  return WITH_COMMA.test(body) ? problem('decimal-comma', { column, text }) : null
}
