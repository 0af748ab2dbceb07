import {
  type Dimension,
  keyOf,
  type Placed,
  type PlanChange,
  planChanges,
  type RowsAsked,
  type Verdict,
  type Waiting,
  type WaitingKind,
  waitingOf,
} from '../../followup/index.ts'
import type { Reader } from '../../store/index.ts'
import { membersOf, type Part } from '../inParts.ts'
import type { Progress } from '../intake/incoming.ts'
import { auditCohort, type CohortAudit } from './auditCohort.ts'
import type { ReadFollowUpWish } from './readWish.ts'
import { rowsAsked } from './rowsAsked.ts'

/** Tests that were due, of some groups and perhaps of one verdict. */
interface FindTests {
  readonly by: Dimension
  readonly keys: readonly string[]
  readonly verdict: Verdict | null
}

/** What is to be told one by one. */
export type Find = FindTests | { readonly waiting: WaitingKind }

/** One test that was due, and whose it was. */
export type Found = Placed & { readonly patientId: string }

/** One thing that waits, and whose it is. */
export type FoundWaiting = Waiting & { readonly patientId: string }

/** What is worked out, and of whom. */
export interface PartWish extends ReadFollowUpWish, Part {
  readonly find: Find | null
}

export interface PartDone {
  /** How many changes the data had seen when they were read: the same number, the same data. */
  readonly revision: number
  readonly audit: CohortAudit
  readonly found: readonly Found[]
  readonly waiting: readonly FoundWaiting[]
  /** Told by the first part alone. */
  readonly rows: RowsAsked | null
  /** Where another version of the plan began within the period. */
  readonly planChanges: readonly PlanChange[]
}

function isFound(one: Placed, { by, keys, verdict }: FindTests): boolean {
  return one.verdict !== 'pending' && one.verdict !== 'excluded' && (verdict === null || one.verdict === verdict) && keys.includes(keyOf(by, one))
}

/** Audits a part of the cohort from one state of the data, whatever is written meanwhile. Synchronous: long work belongs in a process apart. */
export function auditPart(reader: Reader, { period, whatIf, find, part, of }: PartWish, onProgress?: (progress: Progress) => void): PartDone {
  return reader.atOnce(() => {
    const ids = membersOf(reader.patientIds(), { part, of })
    const found: Found[] = []
    const waiting: FoundWaiting[] = []
    const inForce = reader.publishedPlans()
    const audit = auditCohort(reader, ids, period, { inForce, whatIf }, onProgress, (patient) => {
      const { patientId, occasions } = patient
      if (find === null) return
      if ('waiting' in find) for (const one of waitingOf(patient, find.waiting)) waiting.push({ ...one, patientId })
      else for (const one of occasions) if (isFound(one, find)) found.push({ ...one, patientId })
    })
    const rows = part === 0 ? rowsAsked(reader, period) : null
    return { revision: reader.dataRevision(), audit, found, waiting, rows, planChanges: planChanges(inForce, period) }
  })
}
