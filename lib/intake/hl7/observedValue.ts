import { readNumber } from '../numberText.ts'
import { isProblem } from '../row.ts'
import type { Unclear } from '../unclear.ts'
import type { ReadText } from './codeOf.ts'
import { fieldOf, leaf, partOf, receivedField, type Segment } from './segment.ts'

type Found = { readonly text: string } | { readonly unclear: Unclear }
type Parts = readonly string[]

const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)$/
const COMPARATORS: ReadonlySet<string> = new Set(['', '=', '<', '<=', '>', '>='])

const isEmptyFrom = (parts: Parts, at: number): boolean => parts.slice(at).every((part) => part === '')

/** A number, or a spelling that the reading of values tells apart as one of another convention or of a machine. */
const isNumberLike = (text: string): boolean => PLAIN.test(text) || isProblem(readNumber('value', text))

function plainNumber(parts: Parts): Found {
  const [text = ''] = parts
  return isEmptyFrom(parts, 1) && isNumberLike(text) ? { text } : { unclear: 'no-plain-number' }
}

function structuredNumber(parts: Parts): Found {
  const [comparator = '', number = ''] = parts
  if (!COMPARATORS.has(comparator) || !isEmptyFrom(parts, 2) || !isNumberLike(number)) return { unclear: 'no-single-number' }
  return { text: comparator === '=' ? number : `${comparator}${number}` }
}

const oneText = (parts: Parts): Found => (isEmptyFrom(parts, 1) ? { text: parts[0] ?? '' } : { unclear: 'value-components' })

/** The words of a coded value. A number there is a code or a grade, never a measurement. */
function codedWords(parts: Parts): Found {
  const text = parts[1] || parts[4] || ''
  return text === '' || readNumber('value', text.trim()) !== null ? { unclear: 'no-words' } : { text }
}

const READ = new Map<string, (parts: Parts) => Found>([
  ['NM', plainNumber],
  ['SN', structuredNumber],
  ['ST', oneText],
  ['TX', oneText],
  ['FT', oneText],
  ['CE', codedWords],
  ['CWE', codedWords],
])

/** The value of OBX-5 as its own text spells it, by the type in OBX-2; as received where that is not certain. Empty: there is none. */
export function observedValue(obx: Segment): ReadText {
  const received = receivedField(obx, 5)
  const repetitions = fieldOf(obx, 5)?.components ?? []
  const leaves = (repetitions[0] ?? []).map((part) => leaf(part, obx))
  if (repetitions.length > 1) return { text: received, unclear: 'several-values' }
  if (leaves.every(({ text }) => text === '')) return { text: '', unclear: null }
  if (leaves.some(({ isKnown }) => !isKnown)) return { text: received, unclear: 'value-escape' }
  const found = READ.get(partOf(obx, 2).trim())?.(leaves.map(({ text }) => text)) ?? { unclear: 'value-type' as const }
  return 'text' in found ? { text: found.text, unclear: null } : { text: received, unclear: found.unclear }
}
