import { notUtf8, type RefusedFile } from '../fileBytes.ts'
import { compactText } from '../json/compactText.ts'
import { isObject, type Json } from '../json/json.ts'
import { type KeysSeen, parseJson } from '../json/parseJson.ts'
import type { FhirEntry } from './entry.ts'
import { faultOfJson } from './faultOfJson.ts'

const LINE_FEED = 0x0a
const BLANK = [0x20, 0x09, 0x0d, LINE_FEED]

export function isBlank(bytes: Uint8Array): boolean {
  return bytes.every((byte) => BLANK.includes(byte))
}

/** Where the line that begins at `from` ends: its line feed, or the end of the file. */
export function lineEnd(bytes: Uint8Array, from: number): number {
  const end = bytes.indexOf(LINE_FEED, from)
  return end < 0 ? bytes.length : end
}

/** The text of some bytes, null where they are not UTF-8. A byte order mark stays. */
export function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return null
  }
}

const entryOf = (value: Json, line: number, source: string): FhirEntry => ({
  line,
  text: compactText(source),
  fullUrl: '',
  resource: isObject(value) ? value : null,
  why: isObject(value) ? '' : 'the line holds no object',
})

/** One entry for each line from byte `start` on that is not blank, decoded line by line; a line that is no JSON refuses the file. */
export function ndjsonEntries(bytes: Uint8Array, start: number, fileName: string): readonly FhirEntry[] | RefusedFile {
  const entries: FhirEntry[] = []
  const keys: KeysSeen = new Map()
  // Lines before the start are blank, and count.
  let line = 1 + bytes.subarray(0, start).filter((byte) => byte === LINE_FEED).length
  for (let from = start; from < bytes.length; from = lineEnd(bytes, from) + 1, line++) {
    const slice = bytes.subarray(from, lineEnd(bytes, from))
    if (isBlank(slice)) continue
    const text = decoded(slice)
    if (text === null) return notUtf8(bytes, fileName)
    const parsed = parseJson(text, keys)
    if (!parsed.ok) return faultOfJson(parsed, text, { line, byte: from }, fileName)
    entries.push(entryOf(parsed.value, line, text))
  }
  return entries
}
