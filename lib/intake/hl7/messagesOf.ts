import type { Hl7Context } from '@medplum/core'
import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import { type EnvelopeMark, envelopeFault, isEnvelope } from './batch.ts'
import { messageFault } from './messageFault.ts'
import type { PhysicalLine } from './physicalLines.ts'
import { type Segment, segmentOf } from './segment.ts'
import { namesSeparators, separatorsOf } from './separators.ts'

/** One message: its header, and every segment behind it in order. */
export interface Message {
  readonly header: Segment
  readonly segments: readonly Segment[]
}

/** The segment of a line with the separators that hold for it, or why it has none. */
function nextSegment(physical: PhysicalLine, context: Hl7Context | null, fileName: string): Segment | RefusedFile {
  const { line, text, isEnded } = physical
  const name = text.slice(0, 3)
  const own = namesSeparators(name) ? separatorsOf(text) : context
  if (own === null && namesSeparators(name)) {
    const needs = 'it needs a field separator and four others, all different, such as |^~\\&'
    return refusedFile('hl7-separators', `${fileName} names no usable separators in ${name} on line ${line}; ${needs}.`)
  }
  const segment = own === null ? null : segmentOf(physical, own)
  if (segment === null) {
    const why = 'begins with no segment name; a line break inside a text must be sent as an escape'
    return refusedFile('hl7-structure', `${fileName} has a line that ${why}: line ${line}, ${quoted(text)}.`)
  }
  if (text.indexOf(`MSH${segment.split.context.getMsh1()}${segment.split.context.getMsh2()}`, 3) !== -1) {
    return refusedFile('hl7-truncated', `${fileName} has a message cut off: the next one begins inside ${segment.name} on line ${line}.`)
  }
  if (isEnded) return segment
  return refusedFile('hl7-truncated', `${fileName} is cut off: its last segment, ${segment.name} on line ${line}, has no line end.`)
}

/**
 * Tells `take` the messages of a file one after another, or says what is broken, where, in the first place: what its lines cannot be comes before what
 * a message lacks, and that before the counts of batches. Nothing is skipped. Where a file is refused, what `take` was told does not count.
 */
export function eachMessage<Line extends PhysicalLine>(
  lines: Iterable<Line>,
  fileName: string,
  take: (message: Message, first: Line, next: Line | null) => void,
): RefusedFile | null {
  const marks: EnvelopeMark[] = []
  let open: { readonly first: Line; readonly header: Segment; readonly segments: Segment[] } | null = null
  let [context, count, faulty]: [Hl7Context | null, number, RefusedFile | null] = [null, 0, null]
  const close = (next: Line | null): void => {
    if (open === null) return
    faulty ??= messageFault(open, ++count, fileName)
    if (faulty === null) take(open, open.first, next)
    open = null
  }
  for (const physical of lines) {
    const segment = nextSegment(physical, context, fileName)
    if ('ok' in segment) return segment
    context = segment.split.context
    if (segment.name === 'MSH') {
      close(physical)
      open = { first: physical, header: segment, segments: [] }
    } else if (isEnvelope(segment.name)) {
      close(physical)
      marks.push({ segment, before: count })
    } else if (open === null) {
      return refusedFile('hl7-structure', `${fileName} has ${segment.name} on line ${segment.line} outside any message; MSH is missing before it.`)
    } else open.segments.push(segment)
  }
  close(null)
  return faulty ?? envelopeFault(marks, count, fileName)
}
