import { trailHead, verifyTrail } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'

export interface LogVerdict {
  readonly rows: number
  /** Sequence number of the first row that does not fit the chain; null when all do. */
  readonly firstBad: number | null
  readonly says: string
}

/** Checks the whole chain of the log. */
export async function verifyLog(call: Call): Promise<Outcome<LogVerdict>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  if (refused !== null) return refused
  const { rows, firstBad } = verifyTrail(call.store.reader)
  const says =
    firstBad === null
      ? `The log is whole: ${rows} rows, each fits the one before.`
      : `The log does not fit from row ${firstBad} on: it was changed after it was written.`
  return { ok: true, value: { rows, firstBad, says } }
}

/** The last row's number and hash: kept elsewhere, it shows a cut tail later. */
export async function readLogHead(call: Call): Promise<Outcome<{ sequence: number; hash: string }>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  return refused ?? { ok: true, value: trailHead(call.store.reader) }
}
