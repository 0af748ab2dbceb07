import { blocksOf } from '../blocks.ts'
import type { ByteSource } from '../byteSource.ts'
import type { PhysicalLine } from './physicalLines.ts'

/** A line with the byte it begins at. */
export interface PlacedLine extends PhysicalLine {
  readonly from: number
}

const LINE_FEED = 0x0a
const CARRIAGE_RETURN = 0x0d

/** Where each line of a source begins and ends, its line end left out. */
function* spans(source: ByteSource, from: number): Generator<{ readonly begin: number; readonly end: number; readonly isEnded: boolean }> {
  let [begin, isAfterReturn] = [from, false]
  for (const block of blocksOf(source, from)) {
    for (let index = 0; index < block.bytes.length; index++) {
      const byte = block.bytes[index]
      if (byte !== LINE_FEED && byte !== CARRIAGE_RETURN) isAfterReturn = false
      else {
        const end = block.from + index
        // The line feed of a CRLF ends nothing more.
        if (!(byte === LINE_FEED && isAfterReturn)) yield { begin, end, isEnded: true }
        begin = end + 1
        isAfterReturn = byte === CARRIAGE_RETURN
      }
    }
  }
  if (begin < source.length) yield { begin, end: source.length, isEnded: false }
}

/** The lines of a source from the byte `from` on, ended by CR, LF or CRLF, a few in memory at a time; blank ones are counted and left out. */
export function* placedLines(source: ByteSource, from: number): Generator<PlacedLine> {
  let line = 0
  for (const { begin, end, isEnded } of spans(source, from)) {
    line++
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(source.read(begin, end))
    if (text.trim() !== '') yield { line, text, isEnded, from: begin }
  }
}
