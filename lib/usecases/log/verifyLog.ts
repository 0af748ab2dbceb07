import { trailHead, verifyTrail } from '../../store/index.ts'
import { compareHeads, type HeadsCheck, type KeptHead } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { checkExport, type ExportCheck } from './checkExport.ts'
import { keepVerified } from './logHealth.ts'
import { exportFaultSays, headFaultSays } from './verdictSays.ts'

export interface LogVerdict {
  /** Rows in the database, and in the files of retired entries that were joined to them. */
  readonly rows: number
  /** Sequence number of the first row that does not fit the chain, or a head kept elsewhere; null when all do. */
  readonly firstBad: number | null
  /** Heads that agree, and heads whose entry went to a file that was not given. */
  readonly heads: Pick<HeadsCheck, 'agree' | 'retired'>
  readonly says: string
}

export interface VerifyWish {
  /** Heads kept elsewhere, to hold the log against. */
  readonly heads?: readonly KeptHead[]
  /** Files of retired entries, to join to the log. */
  readonly files?: readonly string[]
  readonly onProgress?: (sentence: string) => void
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`

/** What does not fit between a file and the ranges that were retired from this database; null where all does. */
function fileFault(call: Call, check: ExportCheck): { readonly firstBad: number; readonly says: string } | null {
  if (check.fault !== null) return { firstBad: check.fault.sequence, says: exportFaultSays(check.path, check.fault) }
  const { before, head, sha256, databaseId } = check
  const { reader } = call.store
  const range = reader.logRanges().find(({ first, last }) => first === before.sequence + 1 && last === head.sequence)
  const fits =
    range?.previousHash === before.hash && range.lastHash === head.hash && range.fileSha256 === sha256 && databaseId === reader.databaseId()
  return fits ? null : { firstBad: before.sequence + 1, says: `"${check.path}" is not what was retired from this log.` }
}

/**
 * Checks the whole chain of the log, with files of retired entries and against heads kept elsewhere where they are given. What it found is kept for
 * the page of the program's health, and is an entry.
 */
export async function verifyLog(call: Call, { heads = [], files = [], onProgress = () => undefined }: VerifyWish = {}): Promise<Outcome<LogVerdict>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  if (refused !== null) return refused
  const { reader } = call.store
  const wanted = new Set(heads.map(({ sequence }) => sequence))
  const joined = files.map((path) => checkExport(path, wanted, (done) => onProgress(`${path}: ${done} entries`)))
  const judged = joined.map((check) => ({ check, fault: fileFault(call, check) }))
  const badFiles = judged.flatMap(({ fault }) => fault ?? [])
  const inFiles = new Map(judged.flatMap(({ check, fault }) => (fault === null ? [...check.hashes] : [])))
  const { rows, firstBad, head } = verifyTrail(reader, (done, of) => onProgress(`log: ${done} of ${of} entries`))
  const hashAt = (sequence: number) => {
    const here = reader.trailHashAt(sequence)
    return here === undefined ? inFiles.get(sequence) : here
  }
  const compared = compareHeads(heads, { databaseId: reader.databaseId(), last: head.sequence, hashAt })
  const all = rows + joined.reduce((sum, check) => sum + check.rows, 0)
  const faults = [
    ...(firstBad === null ? [] : [{ firstBad, says: `The log does not fit from row ${firstBad} on: it was changed after it was written.` }]),
    ...badFiles,
    ...(compared.fault === null ? [] : [{ firstBad: compared.fault.firstBad, says: headFaultSays(compared.fault) }]),
  ]
  const against = heads.length === 0 ? '' : ` It agrees with ${counted(compared.agree, 'head', 'heads')} kept elsewhere.`
  const apart = compared.retired === 0 ? '' : ` ${counted(compared.retired, 'head is', 'heads are')} of retired entries: join their file to check.`
  const whole = `The log is whole: ${all} rows, each fits the one before.${against}${apart}`
  const bad = faults.length === 0 ? null : Math.min(...faults.map((fault) => fault.firstBad))
  await keepVerified(call, { rows: all, firstBad: bad, heads: heads.length })
  const says = faults.length === 0 ? whole : faults.map((fault) => fault.says).join(' ')
  return { ok: true, value: { rows: all, firstBad: bad, heads: { agree: compared.agree, retired: compared.retired }, says } }
}

/** The last row's number and hash: kept elsewhere, it shows a cut tail later. */
export async function readLogHead(call: Call): Promise<Outcome<{ sequence: number; hash: string }>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  return refused ?? { ok: true, value: trailHead(call.store.reader) }
}
