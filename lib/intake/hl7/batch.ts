import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { quoted } from '../quoted.ts'
import { partOf, type Segment } from './segment.ts'

/** A segment around messages (FHS, BHS, BTS, FTS), and how many messages stand before it in the file. */
export interface EnvelopeMark {
  readonly segment: Segment
  readonly before: number
}

const NAMES: ReadonlySet<string> = new Set(['FHS', 'BHS', 'BTS', 'FTS'])

export function isEnvelope(name: string): boolean {
  return NAMES.has(name)
}

const place = ({ name, line }: Segment): string => `${name} on line ${line}`

function wrongCount(fileName: string, trailer: Segment, counted: number, what: string): RefusedFile | null {
  const said = partOf(trailer, 1)
  if (said === '' || (/^\d{1,9}$/.test(said) && Number(said) === counted)) return null
  return refusedFile('hl7-count', `${fileName} has ${counted} ${what} where ${place(trailer)} says ${quoted(said)}; it may be cut off.`)
}

/** Whether every header of a file or batch has its trailer and every count that is given is right; null where all is well. */
export function envelopeFault(marks: readonly EnvelopeMark[], messages: number, fileName: string): RefusedFile | null {
  let [file, batch, batches]: [Segment | null, EnvelopeMark | null, number] = [null, null, 0]
  const unclosed = (open: Segment) => refusedFile('hl7-truncated', `${fileName} is cut off: ${place(open)} has no trailer.`)
  const misplaced = (segment: Segment) => refusedFile('hl7-structure', `${fileName} has ${place(segment)} where no such segment can stand.`)
  for (const mark of marks) {
    const { segment, before } = mark
    const { name } = segment
    if (batch !== null && name !== 'BTS') return unclosed(batch.segment)
    if (name === 'FHS') {
      if (file !== null) return unclosed(file)
      ;[file, batches] = [segment, 0]
    } else if (name === 'BHS') batch = mark
    else if (name === 'BTS') {
      if (batch === null) return misplaced(segment)
      const wrong = wrongCount(fileName, segment, before - batch.before, 'messages in a batch')
      if (wrong !== null) return wrong
      ;[batch, batches] = [null, batches + 1]
    } else {
      if (file === null) return misplaced(segment)
      // A file of messages without batch headers is one batch.
      const wrong = wrongCount(fileName, segment, batches === 0 && messages > 0 ? 1 : batches, 'batches')
      if (wrong !== null) return wrong
      file = null
    }
  }
  const open = batch?.segment ?? file
  return open === null ? null : unclosed(open)
}
