import { isUtf8 } from 'node:buffer'
import { blocksOf } from './blocks.ts'
import type { ByteSource } from './byteSource.ts'
import { END_BYTES, faultOfEnds, MOST_BYTES, notUtf8, nulByteAt, type RefusedFile, refusedFile, tooLarge } from './fileBytes.ts'
import { wholeCharacters } from './wholeCharacters.ts'

/** What is known of a source once it is certain that it is a text. */
export interface SourceText {
  readonly ok: true
  /** The byte its first character begins at, behind a byte order mark. */
  readonly from: number
  /** The byte its lines end with: a line feed where it has any, else a carriage return. */
  readonly lineEnd: number
}

const MARK = [0xef, 0xbb, 0xbf]
const BEGIN = 256
const LINE_FEED = 0x0a
const CARRIAGE_RETURN = 0x0d

/** Reads a source to its end and says whether it is a text in UTF-8, or why not. Bytes are counted from 1. */
export function textOfSource(source: ByteSource, fileName: string): SourceText | RefusedFile {
  if (source.length > MOST_BYTES) return tooLarge(source.length, fileName)
  const end = source.read(Math.max(0, source.length - END_BYTES), source.length).slice()
  const begin = source.read(0, Math.min(BEGIN, source.length)).slice()
  const fault = faultOfEnds(begin, end, fileName)
  if (fault !== null) return fault
  let left: Uint8Array = new Uint8Array(0)
  let [isBlank, hasLineFeed] = [true, false]
  let notText: RefusedFile | null = null
  for (const { from, bytes } of blocksOf(source)) {
    const nul = bytes.indexOf(0)
    if (nul >= 0) return nulByteAt(from + nul, fileName)
    hasLineFeed ||= bytes.includes(LINE_FEED)
    const isLast = from + bytes.length === source.length
    const joined = left.length === 0 ? bytes : Buffer.concat([left, bytes])
    const whole = joined.subarray(0, isLast ? joined.length : wholeCharacters(joined))
    // A NUL byte further on is told first, wherever the text breaks off.
    if (notText === null && !isUtf8(whole)) notText = notUtf8(whole, fileName, from - left.length)
    if (isBlank && notText === null) isBlank = new TextDecoder().decode(whole).trim() === ''
    left = joined.slice(whole.length)
  }
  if (notText !== null) return notText
  if (isBlank) return refusedFile('empty-file', `${fileName} is empty; it needs a header row.`)
  const from = MARK.every((byte, at) => begin[at] === byte) ? MARK.length : 0
  return { ok: true, from, lineEnd: hasLineFeed ? LINE_FEED : CARRIAGE_RETURN }
}
