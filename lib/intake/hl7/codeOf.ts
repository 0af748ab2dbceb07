import type { Unclear } from '../unclear.ts'
import { fieldOf, leaf, partOf, receivedField, type Segment } from './segment.ts'

/** A text of a row, and what is unclear about it. */
export interface ReadText {
  readonly text: string
  readonly unclear: Unclear | null
}

/** The LOINC code of OBX-3: the one whose coding system is LN, of the first or of the alternate three components. */
export function codeOf(obx: Segment): ReadText {
  const marked = [1, 4].filter((at) => partOf(obx, 3, at + 2).trim() === 'LN' && partOf(obx, 3, at).trim() !== '')
  const codes = [...new Set(marked.map((at) => partOf(obx, 3, at).trim()))]
  const received = receivedField(obx, 3)
  if (codes.length > 1 || (fieldOf(obx, 3)?.components.length ?? 0) > 1) return { text: received, unclear: 'two-codes' }
  if (codes[0] === undefined) return { text: received === '""' ? '' : received, unclear: 'code-system' }
  const isKnown = marked.every((at) => leaf(fieldOf(obx, 3)?.components[0]?.[at - 1] ?? '', obx).isKnown)
  return { text: codes[0], unclear: isKnown ? null : 'code-escape' }
}

/** The unit of OBX-6: the identifier, or the alternate one where only that is marked as UCUM. `10^9/L`, sent without escapes, is one unit. */
export function unitOf(obx: Segment): ReadText {
  const [parts] = fieldOf(obx, 6)?.components ?? []
  const isUcum = (at: number) => /^UCUM$/i.test(partOf(obx, 6, at + 2).trim())
  const isCut = /^\d+$/.test(parts?.[0] ?? '') && parts?.length === 2
  const received = receivedField(obx, 6)
  const chosen = isCut ? received : isUcum(4) && !isUcum(1) ? (parts?.[3] ?? '') : ((parts?.[0] || parts?.[1]) ?? '')
  const { text, isKnown } = leaf(chosen, obx)
  return { text, unclear: isKnown ? null : 'unit-escape' }
}
