import { containerIn } from './container.ts'
import type { FileReason } from './reason.ts'

/** A file that is not read, with why. */
export interface RefusedFile {
  readonly ok: false
  readonly reason: FileReason
  readonly sentence: string
}

export function refusedFile(reason: FileReason, sentence: string): RefusedFile {
  return { ok: false, reason, sentence }
}

/** More bytes than this no file may have. */
export const MOST_BYTES = 512 * 1024 * 1024

/** UTF-16 and UTF-32 begin with their byte order mark (Unicode Standard, table 2-4 and 23.8). */
function otherUnicode(bytes: Uint8Array): boolean {
  return (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)
}

/** Length of the UTF-8 character that begins at `at`, 0 where none does. Ranges: Unicode Standard, table 3-7. */
function characterLength(bytes: Uint8Array, at: number): number {
  const first = bytes[at] ?? 0
  if (first < 0x80) return 1
  const length = first >= 0xc2 && first <= 0xdf ? 2 : first >= 0xe0 && first <= 0xef ? 3 : first >= 0xf0 && first <= 0xf4 ? 4 : 0
  const least = first === 0xe0 ? 0xa0 : first === 0xf0 ? 0x90 : 0x80
  const greatest = first === 0xed ? 0x9f : first === 0xf4 ? 0x8f : 0xbf
  for (let next = 1; next < length; next++) {
    const byte = bytes[at + next] ?? 0
    if (byte < (next === 1 ? least : 0x80) || byte > (next === 1 ? greatest : 0xbf)) return 0
  }
  return length
}

/** The first byte that begins no character, from 0; their number where every one does. */
export function firstBadByte(bytes: Uint8Array): number {
  let at = 0
  while (at < bytes.length) {
    const length = characterLength(bytes, at)
    if (length === 0) return at
    at += length
  }
  return at
}

/** Refused for its length. `bytes` null: more than may be, and nobody counted further. */
export function tooLarge(bytes: number | null, fileName: string): RefusedFile {
  const length = bytes === null ? 'more than 512 MiB' : `${bytes} bytes`
  return refusedFile('file-too-large', `${fileName} has ${length}; it may have at most 512 MiB.`)
}

/** So many bytes at the end of a file may say what it is. */
export const END_BYTES = 128 * 1024

/** Why bytes that begin and end so are no text in UTF-8, whatever stands between: a container of another kind, UTF-16. Null where they may be. */
export function faultOfEnds(begin: Uint8Array, end: Uint8Array, fileName: string): RefusedFile | null {
  const container = containerIn(begin, end)
  if (container !== null) return refusedFile('not-a-text-file', `${fileName} is ${container}, whatever its name; it needs to be saved as CSV.`)
  if (!otherUnicode(begin)) return null
  return refusedFile('not-utf-8', `${fileName} is not UTF-8: byte 1 begins no character, it is the mark of UTF-16; it needs to be saved as UTF-8.`)
}

/** Refused for a NUL byte, the first of which stands at `at`, counted from 0. */
export function nulByteAt(at: number, fileName: string): RefusedFile {
  return refusedFile('nul-byte', `${fileName} has a NUL byte, at byte ${at + 1}; it needs to be text in UTF-8.`)
}

/** Refuses a file for the byte at `at`, counted from 0, which begins no character. */
export function notUtf8At(at: number, fileName: string): RefusedFile {
  return refusedFile('not-utf-8', `${fileName} is not UTF-8: byte ${at + 1} begins no character; it needs to be saved as UTF-8.`)
}

/** Refused for its first bytes that are no UTF-8; `before` is how many bytes of the file stand before these. */
export function notUtf8(bytes: Uint8Array, fileName: string, before = 0): RefusedFile {
  return notUtf8At(before + firstBadByte(bytes), fileName)
}
