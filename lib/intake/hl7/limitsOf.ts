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

/** The limits an interval of OBX-7 names: `60-80`, `<5`, `>3`. Any other text stands in `reference_low`, where it is no number. */
export function limitsOf(interval: string): { readonly reference_low: string; readonly reference_high: string } {
  const text = interval.trim()
  const [, low, high] = BETWEEN.exec(text) ?? []
  if (low !== undefined && high !== undefined) return { reference_low: low, reference_high: high }
  const below = BELOW.exec(text)?.[1]
  if (below !== undefined) return { reference_low: '', reference_high: below }
  return { reference_low: ABOVE.exec(text)?.[1] ?? unread(text), reference_high: '' }
}
