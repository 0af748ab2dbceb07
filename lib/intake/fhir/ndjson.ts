import { isObject, type Json } from '../json/json.ts'
import { type KeysSeen, parseJson } from '../json/parseJson.ts'
import type { FhirEntry } from './entry.ts'
import { textOf, tooLarge, unreadable } from './piece.ts'
import { MOST_BYTES_OF_ENTRY } from './pieceEnd.ts'
import { behindBlanks, lineEnd } from './textBytes.ts'
import { Unreadable } from './unreadable.ts'
import type { Windows } from './windows.ts'

export function entryOfLine(value: Json, line: number, source: string): FhirEntry {
  const resource = isObject(value) ? value : null
  return { line, source, fullUrl: '', resource, why: resource === null ? 'the line holds no object' : '' }
}

/** Reads each line from byte `start` on that is not blank, one at a time, and hands it over with its place. Throws `Unreadable`. */
export function readLines(
  windows: Windows,
  start: number,
  line: number,
  keys: KeysSeen,
  onLine: (entry: FhirEntry, from: number, to: number) => void,
) {
  for (let from = start, at = line; from < windows.length; at++) {
    const to = lineEnd(windows, from)
    if (behindBlanks(windows, from) < to) {
      if (to - from > MOST_BYTES_OF_ENTRY) throw tooLarge(windows, from, 0, keys)
      const text = textOf(windows, from, to)
      const parsed = parseJson(text, keys)
      if (!parsed.ok) throw parsed.reason === 'too-many-values' ? new Unreadable('too-large', from) : unreadable(parsed, text, from)
      onLine(entryOfLine(parsed.value, at, text), from, to)
    }
    from = to + 1
  }
}
