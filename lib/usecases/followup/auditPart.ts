import { type Dimension, keyOf, type Placed, type PlanChange, planChanges, type RowsAsked, type Verdict } from '../../followup/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Progress } from '../intake/incoming.ts'
import { auditCohort, type CohortAudit } from './auditCohort.ts'
import type { ReadFollowUpWish } from './readWish.ts'
import { rowsAsked } from './rowsAsked.ts'

/** Which tests are to be told one by one. */
export interface Find {
  readonly by: Dimension
  readonly keys: readonly string[]
  readonly verdict: Verdict | null
}

/** One test that was due, and whose it was. */
export type Found = Placed & { readonly patientId: string }

/** What is worked out, and of whom: every `parts`th patient from the `part`th on, counted from 0. */
export interface PartWish extends ReadFollowUpWish {
  readonly find: Find | null
  readonly part: number
  readonly parts: number
}

export interface PartDone {
  /** How many changes the data had seen when they were read: the same number, the same data. */
  readonly revision: number
  readonly audit: CohortAudit
  readonly found: readonly Found[]
  /** Told by the first part alone. */
  readonly rows: RowsAsked | null
  /** Where another version of the plan began within the period. */
  readonly planChanges: readonly PlanChange[]
}

function isFound(one: Placed, { by, keys, verdict }: Find): boolean {
  return one.verdict !== 'pending' && one.verdict !== 'excluded' && (verdict === null || one.verdict === verdict) && keys.includes(keyOf(by, one))
}

/** Audits a part of the cohort from one state of the data, whatever is written meanwhile. Synchronous: long work belongs in a process apart. */
export function auditPart(reader: Reader, { period, whatIf, find, part, parts }: PartWish, onProgress?: (progress: Progress) => void): PartDone {
  return reader.atOnce(() => {
    const ids = reader.patientIds().filter((_, at) => at % parts === part)
    const found: Found[] = []
    const inForce = reader.publishedPlans()
    const audit = auditCohort(reader, ids, period, { inForce, whatIf }, onProgress, ({ patientId, occasions }) => {
      if (find !== null) for (const one of occasions) if (isFound(one, find)) found.push({ ...one, patientId })
    })
    const rows = part === 0 ? rowsAsked(reader, period) : null
    return { revision: reader.dataRevision(), audit, found, rows, planChanges: planChanges(inForce, period) }
  })
}
