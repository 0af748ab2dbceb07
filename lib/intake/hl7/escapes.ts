import type { Hl7Context } from '@medplum/core'

/** A text with its escapes decoded; `isKnown` is false where one of them stands for nothing known and is kept as received. */
export interface Decoded {
  readonly text: string
  readonly isKnown: boolean
}

/** The characters that hexadecimal digits spell in UTF-8; null where they spell none. */
function spelt(digits: string): string | null {
  if (digits.length === 0 || digits.length % 2 === 1 || !/^[\dA-Fa-f]+$/.test(digits)) return null
  const bytes = Uint8Array.from({ length: digits.length / 2 }, (_, at) => Number.parseInt(digits.slice(at * 2, at * 2 + 2), 16))
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return null
  }
}

function meaning(code: string, context: Hl7Context): string | null {
  if (code === 'F') return context.fieldSeparator
  if (code === 'S') return context.componentSeparator
  if (code === 'T') return context.subcomponentSeparator
  if (code === 'R') return context.repetitionSeparator
  if (code === 'E') return context.escapeCharacter
  if (code === '.br') return '\n'
  return code.startsWith('X') ? spelt(code.slice(1)) : null
}

/** Decodes the escapes of HL7 v2.5.1 chapter 2.7 that stand for characters or a line break, each once, from left to right. */
export function decoded(text: string, context: Hl7Context): Decoded {
  const mark = context.escapeCharacter
  const parts: string[] = []
  let [from, isKnown] = [0, true]
  for (let open = text.indexOf(mark); open !== -1; open = text.indexOf(mark, from)) {
    const close = text.indexOf(mark, open + 1)
    const plain = close === -1 ? null : meaning(text.slice(open + 1, close), context)
    const end = close === -1 ? text.length : close + 1
    parts.push(text.slice(from, open), plain ?? text.slice(open, end))
    if (plain === null) isKnown = false
    from = end
  }
  parts.push(text.slice(from))
  return { text: parts.join(''), isKnown }
}
