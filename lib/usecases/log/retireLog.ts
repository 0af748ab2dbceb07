import { addMonths, type Day, day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { checkExport } from './checkExport.ts'
import { finishPart, type Part, writePart } from './exportFile.ts'
import { wholeLines } from './exportLog.ts'
import { keepYears } from './keepYears.ts'

export interface Retired {
  readonly first: number
  readonly last: number
  readonly rows: number
  readonly sha256: string
}

export interface RetireWish {
  /** Entries of days (UTC) before this one go, from the oldest on. */
  readonly before: Day
  readonly file: string
  readonly onProgress?: (sentence: string) => void
}

function lastBefore(call: Call, before: Day): number {
  const { reader } = call.store
  const head = reader.trailHead().sequence
  // Up to the first younger one, whatever a clock that went back wrote behind it; and never the last one of all.
  const firstKept = reader.firstTrailRowFrom(`${before}T00:00:00.000Z`) ?? head
  return Math.min(firstKept, head) - 1
}

/** Writes the entries and reads them back. Throws where what the disk gives back is not the log. */
function writeVerified(call: Call, { file, onProgress }: RetireWish, first: number, last: number): Part {
  const { reader } = call.store
  const part = writePart(file, wholeLines(reader, first, last))
  onProgress?.(`${last - first + 1} entries are written; reading them back`)
  const { sha256, before, head, fault, databaseId } = checkExport(part.path)
  const isSame = sha256 === part.sha256 && fault === null && databaseId === reader.databaseId()
  const fits = before.sequence === first - 1 && head.sequence === last && head.hash === reader.trailHashAt(last)
  if (!isSame || !fits) throw new Error(`"${part.path}" could not be read back as it was written. Use another disk.`)
  return part
}

/**
 * Moves the oldest entries of the log to a file: written, read back and verified, named, and only then removed here, together with the row that says
 * so. Interrupted, it leaves the log whole; asked again with the same file, it goes on. For whoever keeps the machine: the console only.
 * Throws the error of the file system; nothing is removed then.
 */
export async function retireLog(call: Call, wish: RetireWish): Promise<Outcome<Retired>> {
  if (call.actor.role !== 'console') return { ok: false, kind: 'not-allowed', reason: 'Entries of the log are retired from the command line.' }
  const { reader } = call.store
  const years = keepYears()
  const youngest = addMonths(day(call.now.slice(0, 10)), -12 * years)
  if (wish.before > youngest)
    return { ok: false, kind: 'invalid', reason: `The log is kept for ${years} years: name a day no later than ${youngest}.` }
  const { firstBad } = reader.verifyTrail()
  if (firstBad !== null)
    return { ok: false, kind: 'invalid', reason: `The log does not fit from row ${firstBad} on, so none of it is removed. See docs/log.md.` }
  const [first, last] = [reader.firstTrailRow(), lastBefore(call, wish.before)]
  if (last < first) return { ok: false, kind: 'invalid', reason: `The log has no entry of before ${wish.before}.` }
  const part = writeVerified(call, wish, first, last)
  finishPart(wish.file, part)
  wish.onProgress?.(`"${wish.file}" is complete; removing its entries here`)
  const sha256 = await call.store.record(call, (tx) => {
    const previousHash = tx.trailRows({ after: first - 1, upTo: first, limit: 1 })[0]?.previousHash ?? ''
    const range = { first, last, previousHash, lastHash: tx.trailHashAt(last) ?? '', fileSha256: part.sha256 }
    tx.retireRange({ ...range, retiredBy: call.actor.name, retiredAt: call.now })
    return { value: part.sha256, events: [{ action: 'log-retired', ...range }] }
  })
  return { ok: true, value: { first, last, rows: last - first + 1, sha256 } }
}
