import type { ByteSource } from '../byteSource.ts'
import { containerIn } from '../container.ts'
import { MOST_BYTES, nulByteAt, type RefusedFile, refusedFile, tooLarge } from '../fileBytes.ts'
import { MORE_TEXT } from '../json/faultWords.ts'
import type { OpenTable } from '../table.ts'
import { bundleFault, entryOfBundle } from './bundle.ts'
import { entryOfLine, readLines } from './ndjson.ts'
import { type Outline, readOutline } from './outline.ts'
import { readPiece } from './piece.ts'
import { MOST_BYTES_OF_ENTRY } from './pieceEnd.ts'
import { TableOfEntries } from './tableOfEntries.ts'
import { behindBlanks, faultyBytes, lineFeeds } from './textBytes.ts'
import { refusalOf, Unreadable } from './unreadable.ts'
import { Windows } from './windows.ts'

const MARK = [0xef, 0xbb, 0xbf]

/** The first byte that says something, behind a byte order mark and blanks. */
const beginOf = (windows: Windows): number => behindBlanks(windows, MARK.every((byte, at) => windows.byteAt(at) === byte) ? MARK.length : 0)

const OBJECT = 0x7b
const LIST = 0x5b

const HEAD = 200

/** Whether a file begins with a JSON object or list; no other format that is read does. A document of a word processor may begin with a brace too. */
export function beginsLikeJson(source: ByteSource): boolean {
  const windows = new Windows(source)
  const first = windows.byteAt(beginOf(windows))
  return (first === OBJECT || first === LIST) && containerIn(windows.bytes(0, Math.min(HEAD, windows.length)), new Uint8Array(0)) === null
}

const noFhir = (fileName: string): RefusedFile =>
  refusedFile('unknown-json', `${fileName} is JSON but no FHIR: it needs a Bundle, or one resource on each line, each with its resourceType.`)

/** A file is one JSON document, or NDJSON where its first line is a whole one and more follows. */
function isLines(windows: Windows, start: number, { to }: Outline): boolean {
  const next = behindBlanks(windows, to)
  if (next === windows.length) return false
  if (lineFeeds(windows, start, to) > 0 || lineFeeds(windows, to, next) === 0) throw new Unreadable('broken-json', next, MORE_TEXT)
  return true
}

/** Of a document the first byte that is no UTF-8 is told before any fault of JSON; `bad` is that byte. */
function asDocument<Read>(bad: number | null, read: () => Read): Read {
  try {
    return read()
  } catch (error) {
    throw error instanceof Unreadable && bad !== null ? new Unreadable('not-utf-8', bad) : error
  }
}

function opened(windows: Windows, start: number, bad: number | null, fileName: string): OpenTable {
  const keys = new Map<string, string>()
  const line = 1 + lineFeeds(windows, 0, start)
  const bundle = new TableOfEntries(windows, true)
  const { outline, isNdjson } = asDocument(bad, () => {
    const outline = readOutline(windows, start, keys, ({ value, text, to }, from) => {
      bundle.add(entryOfBundle(value, bundle.count + 1, text), from, to)
    })
    return { outline, isNdjson: isLines(windows, start, outline) }
  })
  if (outline.resourceType === '') return noFhir(fileName)
  if (outline.resourceType === 'Bundle' && !isNdjson) return bundleFault(outline, fileName) ?? bundle.table()
  const lines = new TableOfEntries(windows, false)
  if (isNdjson) readLines(windows, start, line, keys, (entry, from, to) => lines.add(entry, from, to))
  else {
    if (outline.to - start > MOST_BYTES_OF_ENTRY) throw new Unreadable('too-large', start)
    const { value, text, to } = readPiece(windows, start, 0, keys)
    lines.add(entryOfLine(value, line, text), start, to)
  }
  return lines.table()
}

/**
 * Opens FHIR R4: a Bundle, a single resource, or NDJSON with a resource on each line. Every entry is at least one row, unless it only groups rows of the file: a Patient one of `patients`, an
 * Observation and each of its components one of `results`, anything else a refused row with its reason. Patients come first. One entry is in memory at a
 * time, and of all of them some tens of bytes each. Never throws on what the file says. `block` is how many bytes are read at a time.
 */
export function openFhir(source: ByteSource, fileName: string, block?: number): OpenTable {
  if (source.length > MOST_BYTES) return tooLarge(source.length, fileName)
  const windows = new Windows(source, block)
  const { nul, bad } = faultyBytes(windows)
  if (nul !== null) return nulByteAt(nul, fileName)
  const start = beginOf(windows)
  if (windows.byteAt(start) === LIST) return noFhir(fileName)
  try {
    return opened(windows, start, bad, fileName)
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error
    return refusalOf(error, windows, fileName)
  }
}
