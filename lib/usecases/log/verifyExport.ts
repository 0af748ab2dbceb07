import { compareHeads, type KeptHead } from '../../trail/index.ts'
import { checkExport } from './checkExport.ts'
import { exportFaultSays, headFaultSays } from './verdictSays.ts'

export interface ExportVerdict {
  readonly rows: number
  readonly first: number
  readonly last: number
  /** The number that should stand where the file first does not hold; null where all of it does. */
  readonly firstBad: number | null
  readonly says: string
}

/**
 * Verifies a file of exported entries from itself alone, without a database, and against heads kept elsewhere that fall into it. What stands before
 * its first entry and after its last it cannot tell. Throws the error of the file system.
 */
export function verifyExport(path: string, heads: readonly KeptHead[], onProgress: (sentence: string) => void = () => undefined): ExportVerdict {
  const wanted = new Set(heads.map(({ sequence }) => sequence))
  const { rows, before, head, databaseId, fault, hashes } = checkExport(path, wanted, (done) => onProgress(`${path}: ${done} entries`))
  const bounds = { rows, first: before.sequence + 1, last: head.sequence }
  if (fault !== null) return { ...bounds, firstBad: fault.sequence, says: exportFaultSays(path, fault) }
  const within = heads.filter(({ sequence }) => hashes.has(sequence))
  const { agree, fault: headFault } = compareHeads(within, { databaseId, last: head.sequence, hashAt: (sequence) => hashes.get(sequence) })
  if (headFault !== null) return { ...bounds, firstBad: headFault.firstBad, says: headFaultSays(headFault) }
  const against = heads.length === 0 ? '' : ` ${agree} of ${heads.length} heads kept elsewhere fall into it and agree.`
  return { ...bounds, firstBad: null, says: `"${path}" holds: entries ${bounds.first} to ${bounds.last}, each fits the one before.${against}` }
}
