import { isUtf8 } from 'node:buffer'
import { firstBadByte } from '../fileBytes.ts'
import type { Windows } from './windows.ts'

const LINE_FEED = 0x0a
const DECODER = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })

/** The text of some bytes, null where they are not UTF-8. A byte order mark stays. */
export function decoded(bytes: Uint8Array): string | null {
  return isUtf8(bytes) ? DECODER.decode(bytes) : null
}

export function isBlankByte(byte: number): boolean {
  return byte === 0x20 || byte === LINE_FEED || byte === 0x0d || byte === 0x09
}

/** The first place from `at` on that is no blank, the length where there is none. */
export function behindBlanks(windows: Windows, at: number): number {
  let next = at
  while (isBlankByte(windows.byteAt(next))) next++
  return next
}

/** How many lines end between two places. */
export function lineFeeds(windows: Windows, from: number, to: number): number {
  let count = 0
  for (let at = windows.indexOf(LINE_FEED, from, to); at < to; at = windows.indexOf(LINE_FEED, at + 1, to)) count++
  return count
}

export function lineEnd(windows: Windows, from: number): number {
  return windows.indexOf(LINE_FEED, from)
}

/** Where a step that may be cut there ends between two characters: at most three bytes that continue one stand behind its first. */
function betweenCharacters(windows: Windows, to: number): number {
  let at = to
  while (to - at < 3 && (windows.byteAt(at) & 0xc0) === 0x80) at--
  return (windows.byteAt(at) & 0xc0) === 0x80 ? to : at
}

/** The first NUL byte of a source, and the first byte that begins no character of UTF-8 (sought up to that NUL), from 0; null where there is none. */
export function faultyBytes(windows: Windows): { readonly nul: number | null; readonly bad: number | null } {
  let bad: number | null = null
  for (let from = 0; from < windows.length; ) {
    const cut = Math.min(windows.length, from + windows.step)
    const to = cut === windows.length ? cut : betweenCharacters(windows, cut)
    const bytes = windows.bytes(from, to)
    const nul = bytes.indexOf(0)
    if (nul >= 0) return { nul: from + nul, bad }
    if (bad === null && !isUtf8(bytes)) bad = from + firstBadByte(bytes)
    from = to
  }
  return { nul: null, bad }
}
