import type { ByteSource } from '../byteSource.ts'
import { refusedFile } from '../fileBytes.ts'
import { growing } from '../growing.ts'
import { quoted } from '../quoted.ts'
import type { RawRow } from '../row.ts'
import type { OpenTable } from '../table.ts'
import type { SourceText } from '../textOfSource.ts'
import { messageName } from './messageFault.ts'
import { isResultMessage, messageRows } from './messageRows.ts'
import { eachMessage } from './messagesOf.ts'
import { physicalLines } from './physicalLines.ts'
import { placedLines } from './placedLines.ts'
import { receivedField } from './segment.ts'

/** The last place in an ascending list that is not above `value`. */
function lastNotAbove(list: Uint32Array, value: number): number {
  let [low, high] = [0, list.length - 1]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if ((list[middle] ?? 0) <= value) low = middle
    else high = middle - 1
  }
  return low
}

/**
 * Opens a text that is HL7 v2 (`isHl7`) as rows of results: messages ORU^R01, one or several or in batches. Positions as in HL7 v2.5.1. Kept are the
 * places of the messages. The whole file is refused where it is cut off or its structure is broken, and where none of its messages brings results.
 * Never throws on what the file says.
 */
export function openHl7(source: ByteSource, { from: begin }: SourceText, fileName: string): OpenTable {
  const [begins, ends, lines, firstRows] = [growing(), growing(), growing(), growing()]
  let [messages, count, hasResults, found] = [0, 0, false, 'it has no message']
  let [read, latest]: [number, readonly RawRow[]] = [-1, []]
  const fault = eachMessage(placedLines(source, begin), fileName, (message, first, next) => {
    begins.push(first.from)
    ends.push(next?.from ?? source.length)
    lines.push(first.line)
    firstRows.push(count)
    if (messages === 0) found = `${messageName(message.header, 1)} is ${quoted(receivedField(message.header, 9))}`
    hasResults ||= isResultMessage(message)
    ;[read, latest] = [messages++, messageRows(message)]
    count += latest.length
  })
  if (fault !== null) return fault
  if (!hasResults) return refusedFile('hl7-no-results', `${fileName} has no HL7 message of results (ORU^R01): ${found}.`)
  const [from, to, line, firstRow] = [begins.first(messages), ends.first(messages), lines.first(messages), firstRows.first(messages)]
  const rowsOf = (at: number): readonly RawRow[] => {
    if (at === read) return latest
    const text = new TextDecoder().decode(source.read(from[at] ?? 0, to[at] ?? 0))
    const before = (line[at] ?? 1) - 1
    let rows: readonly RawRow[] = []
    const broken = eachMessage(
      physicalLines(text).map((own) => ({ ...own, line: own.line + before })),
      fileName,
      (message) => {
        rows = messageRows(message)
      },
    )
    if (broken !== null) throw new Error(`${fileName} has changed while it was read: ${broken.sentence}`)
    ;[read, latest] = [at, rows]
    return rows
  }
  const rowAt = (place: number): RawRow => {
    const at = lastNotAbove(firstRow, place)
    const row = rowsOf(at)[place - (firstRow[at] ?? 0)]
    if (row === undefined) throw new RangeError(`There is no row at place ${place}.`)
    return row
  }
  function* rows(): Generator<RawRow> {
    for (let at = 0; at < messages; at++) yield* rowsOf(at)
  }
  return { ok: true, kind: 'results', count, rows, rowAt }
}
