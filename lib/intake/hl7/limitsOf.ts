import { readNumber } from '../numberText.ts'
import { isProblem } from '../row.ts'

const NUMBER = '(\\d+(?:\\.\\d+)?)'
const BETWEEN = new RegExp(`^${NUMBER} ?- ?${NUMBER}$`)
const BELOW = new RegExp(`^<=? ?${NUMBER}$`)
const ABOVE = new RegExp(`^>=? ?${NUMBER}$`)

// A number alone does not say which limit it is; it must not be read as one.
function unread(text: string): string {
  const number = readNumber('reference_low', text)
  return number === null || isProblem(number) || number.comparator !== null ? text : `interval ${text}`
}

/** Limits as columns; an interval with commas stands as received beside them, for a source may write its decimals so. */
export interface LimitFields {
  readonly reference_low: string
  readonly reference_high: string
  readonly reference_interval?: string
}

/** The limits an interval of OBX-7 names: `60-80`, `<5`, `>3`. Any other text stands in `reference_low`, where it is no number. */
export function limitsOf(interval: string): LimitFields {
  const text = interval.trim()
  const [, low, high] = BETWEEN.exec(text) ?? []
  if (low !== undefined && high !== undefined) return { reference_low: low, reference_high: high }
  const below = BELOW.exec(text)?.[1]
  if (below !== undefined) return { reference_low: '', reference_high: below }
  const above = ABOVE.exec(text)?.[1]
  if (above !== undefined) return { reference_low: above, reference_high: '' }
  return { reference_low: unread(text), reference_high: '', ...(text.includes(',') ? { reference_interval: text } : {}) }
}
