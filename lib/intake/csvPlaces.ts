import { blocksOf } from './blocks.ts'
import type { ByteSource } from './byteSource.ts'
import { type RefusedFile, refusedFile } from './fileBytes.ts'
import { growing } from './growing.ts'
import type { SourceText } from './textOfSource.ts'

/** Where the records of a CSV text lie, none skipped but empty lines at the very end. */
export interface CsvPlaces {
  readonly ok: true
  readonly count: number
  /** The byte each record begins at, and behind the last one where it ends. */
  readonly begins: Uint32Array
  /** The physical line each begins on, from 1. */
  readonly lines: Uint32Array
}

const QUOTE = 0x22
const COMMA = 0x2c
const CARRIAGE_RETURN = 0x0d
const ASCII_BLANKS = [0x09, 0x0a, 0x0b, 0x0c, 0x0d, 0x20]

/** Where in a record a byte stands: at the beginning of a field, in one without quotes, in one with, behind a quote that may have closed it. */
type Where = 'begin' | 'plain' | 'quoted' | 'closed'

const unclosed = (line: number, fileName: string): RefusedFile =>
  refusedFile('unclosed-quote', `${fileName} has a quote on line ${line} that is never closed; nothing after it can be told apart.`)

function misplaced(line: number, fileName: string): RefusedFile {
  const rule = 'a quote inside a field must be doubled.'
  return refusedFile('misplaced-quote', `${fileName} has text after a closing quote in the field that begins on line ${line}; ${rule}`)
}

/**
 * Finds the records of a CSV text (RFC 4180; comma; LF, CRLF or CR) by their bytes: in UTF-8 no byte of another character looks like a comma, a quote
 * or a line end. A quote that is never closed, or one followed by more than blanks, makes it uncertain where records begin: the file is refused.
 */
export function csvPlaces(source: ByteSource, { from, lineEnd }: SourceText, fileName: string): CsvPlaces | RefusedFile {
  const [begins, lines] = [growing(), growing()]
  // Counted and kept: trailing empty lines are counted only once something follows them.
  let [seen, count, end] = [0, 0, from]
  let where: Where = 'begin'
  let [begin, line, physical, fieldLine, closedAt, before] = [from, 1, 1, 1, 0, 0]
  let mayBeBlank = false
  const closesWell = (at: number): boolean => !mayBeBlank || new TextDecoder().decode(source.read(closedAt + 1, at)).trim() === ''
  const record = (at: number, next: number): void => {
    begins.push(begin)
    lines.push(line)
    seen++
    if (at > begin && !(at === begin + 1 && before === CARRIAGE_RETURN)) [count, end] = [seen, next]
    ;[begin, line, where] = [next, physical, 'begin']
  }
  for (const block of blocksOf(source, from)) {
    const { bytes } = block
    for (let index = 0; index < bytes.length; index++) {
      const byte = bytes[index] as number
      const at = block.from + index
      if (byte === lineEnd && where !== 'quoted') {
        if (where === 'closed' && !closesWell(at)) return misplaced(fieldLine, fileName)
        physical++
        record(at, at + 1)
      } else if (where === 'plain') {
        if (byte === COMMA) where = 'begin'
      } else if (where === 'quoted') {
        if (byte === QUOTE) [where, closedAt, mayBeBlank] = ['closed', at, false]
        else if (byte === lineEnd) physical++
      } else if (where === 'begin') {
        if (byte === QUOTE) [where, fieldLine] = ['quoted', physical]
        else if (byte !== COMMA) where = 'plain'
      } else if (byte === QUOTE && at === closedAt + 1) where = 'quoted'
      else if (byte === COMMA) {
        if (!closesWell(at)) return misplaced(fieldLine, fileName)
        where = 'begin'
      } else if (byte >= 0x80) mayBeBlank = true
      else if (!ASCII_BLANKS.includes(byte)) return misplaced(fieldLine, fileName)
      before = byte
    }
  }
  // The compiler follows no assignment inside a function.
  const last = where as Where
  if (last === 'quoted') return unclosed(fieldLine, fileName)
  if (last === 'closed' && closedAt + 1 < source.length) return misplaced(fieldLine, fileName)
  if (begin < source.length) record(source.length, source.length)
  begins.push(0)
  const all = begins.first(count + 1)
  all[count] = end
  return { ok: true, count, begins: all, lines: lines.first(count) }
}
