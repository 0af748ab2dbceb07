import { isBlankByte } from './textBytes.ts'
import type { Windows } from './windows.ts'

const [QUOTE, BACKSLASH, COMMA, COLON] = [0x22, 0x5c, 0x2c, 0x3a]
const OPEN = [0x7b, 0x5b]
const CLOSE = [0x7d, 0x5d]

/** Bytes of one entry of a file, so that one is in memory at a time whatever the size of the file. (ours) */
export const MOST_BYTES_OF_ENTRY = 16 * 1024 * 1024

/** What a byte outside texts means for where a value ends. */
const NONE = 0
const MEANS = new Uint8Array(256)
for (const byte of OPEN) MEANS[byte] = 1
for (const byte of CLOSE) MEANS[byte] = 2
MEANS[QUOTE] = 3

/** Behind the quote that closes the text opened at `from`; `most` where it comes no earlier. */
function textEnd(windows: Windows, from: number, most: number): number {
  for (let at = from + 1; at < most; at++) {
    const byte = windows.byteAt(at)
    if (byte === QUOTE) return at + 1
    if (byte === BACKSLASH) at++
  }
  return most
}

function wordEnd(windows: Windows, from: number, most: number): number {
  const ends = (byte: number) => isBlankByte(byte) || byte === COMMA || byte === COLON || (MEANS[byte] ?? NONE) !== NONE
  let at = from + 1
  while (at < most && !ends(windows.byteAt(at))) at++
  return Math.min(at, most)
}

/**
 * Where the JSON value that begins at `from` ends, without reading what it says. Of a text that is no JSON it holds at least everything up to the first fault:
 * a reader stops at its fault, and until then brackets and quotes count the same. At most `MOST_BYTES_OF_ENTRY` + 1 bytes.
 */
export function pieceEnd(windows: Windows, from: number): number {
  const most = Math.min(windows.length, from + MOST_BYTES_OF_ENTRY + 1)
  const first = windows.byteAt(from)
  if (first === QUOTE) return textEnd(windows, from, most)
  if (!OPEN.includes(first)) return wordEnd(windows, from, most)
  let open = 0
  for (let at = from; at < most; at++) {
    const means = MEANS[windows.byteAt(at)] ?? NONE
    if (means === NONE) continue
    if (means === 3) at = textEnd(windows, at, most) - 1
    else if (means === 2) open--
    else open++
    if (open === 0) return at + 1
  }
  return most
}
