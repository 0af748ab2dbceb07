import {
  addCounts,
  auditPatient,
  type CohortCounts,
  countPatient,
  type FindingsAsked,
  noCounts,
  type PatientAudit,
  type Period,
} from '../../followup/index.ts'
import type { FollowUpPlan } from '../../plan/index.ts'
import type { History } from '../../results/index.ts'
import { repeatsOf, repeatsWithin } from '../../standing/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Progress } from '../intake/incoming.ts'
import { flaggedOf } from './flaggedOf.ts'

// Between two words of progress.
const AT_A_TIME = 200

/** One patient as the audit sees them. */
export function auditHistory(history: History, plans: readonly FollowUpPlan[], period: Period): PatientAudit {
  const findings: FindingsAsked = { on: repeatsOf, within: repeatsWithin, flagged: (past) => flaggedOf(past, history, period.from) }
  return auditPatient(history, plans, period, findings)
}

/** The plans a period is audited under: as they were in force, and perhaps one other. */
export interface AuditPlans {
  readonly inForce: readonly FollowUpPlan[]
  /** A single version, as if it had been in force always; null where nothing is tried. */
  readonly whatIf: FollowUpPlan | null
}

export interface CohortAudit {
  readonly counts: CohortCounts
  readonly whatIf: CohortCounts | null
}

/** Audits one patient after the other, holding one at a time. Changes nothing. `each` is told every patient under the plans in force. */
export function auditCohort(
  reader: Pick<Reader, 'loadCounted'>,
  patientIds: readonly string[],
  period: Period,
  plans: AuditPlans,
  onProgress?: (progress: Progress) => void,
  each?: (audit: PatientAudit) => void,
): CohortAudit {
  const counts = noCounts()
  const tried = plans.whatIf === null ? null : noCounts()
  for (const [index, patientId] of patientIds.entries()) {
    const history = reader.loadCounted(patientId)?.history
    if (history !== undefined) {
      const audit = auditHistory(history, plans.inForce, period)
      countPatient(counts, audit)
      each?.(audit)
      if (tried !== null && plans.whatIf !== null) countPatient(tried, auditHistory(history, [plans.whatIf], period))
    }
    if ((index + 1) % AT_A_TIME === 0 || index + 1 === patientIds.length) {
      onProgress?.({ step: 'patients audited', done: index + 1, of: patientIds.length })
    }
  }
  return { counts, whatIf: tried }
}

/** Adds what parts of a cohort gave. */
export function addAudits(audits: readonly CohortAudit[]): CohortAudit {
  const counts = noCounts()
  const tried = audits.some(({ whatIf }) => whatIf !== null) ? noCounts() : null
  for (const audit of audits) {
    addCounts(counts, audit.counts)
    if (tried !== null && audit.whatIf !== null) addCounts(tried, audit.whatIf)
  }
  return { counts, whatIf: tried }
}
