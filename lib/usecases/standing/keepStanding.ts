import type { FollowUpPlan } from '../../plan/index.ts'
import { urgencyKey } from '../../review/index.ts'
import { RULES_VERSION } from '../../rules/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Reader, StandingRow, Tx } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import { nextDueOn } from '../list/dueOn.ts'
import { standingAnswer } from '../list/standingAnswer.ts'
import { planInForce } from '../plan/planInForce.ts'
import { openFindings } from './openFindings.ts'

/** The row that keeps an assessment: its place in the order as columns, the rest as one canonical text. */
export function standingRow(assessment: Assessment, revision: number, planVersion: string): StandingRow {
  const answer = standingAnswer(assessment)
  const { windowRank, stateRank, organRank, since, excess } = urgencyKey(assessment)
  const top = assessment.open[0]
  return {
    patientId: assessment.course.patient.id,
    historyRevision: revision,
    followed: assessment.course.leftOn === null,
    rulesVersion: RULES_VERSION,
    planVersion,
    evaluatedOn: assessment.asOf,
    holdsUntil: assessment.holdsUntil,
    windowRank,
    stateRank,
    organRank,
    since,
    excess,
    nextDueOn: nextDueOn(answer.due, assessment.asOf),
    phase: answer.phase,
    care: answer.care,
    clinician: assessment.course.patient.clinician,
    rule: top?.rule ?? null,
    state: top?.state ?? null,
    window: assessment.window,
    answer: JSON.stringify(answer),
    rules: [...new Set(assessment.findings.map((finding) => finding.rule))].toSorted(),
    open: assessment.course.leftOn === null ? openFindings(assessment) : [],
    comesBackTo: answer.comesBackTo,
  }
}

/** One patient evaluated afresh: what would be kept, and nothing is; null where nobody has this number. */
export function freshStanding(reader: Pick<Reader, 'loadCounted'>, patientId: string, plan: FollowUpPlan, today: Day): StandingRow | null {
  const stored = reader.loadCounted(patientId)
  return stored === null ? null : standingRow(assess(stored.history, plan, today), stored.revision, plan.version)
}

/** Evaluates one patient afresh and keeps the answer, inside the transaction that changed the history. */
export function keepStanding(tx: Tx, patientId: string, today: Day, plan: FollowUpPlan = planInForce(tx, today)): void {
  const fresh = freshStanding(tx, patientId, plan, today)
  if (fresh !== null) tx.saveStanding(fresh)
}

/** An answer worked out before the write lock was taken, null where none was, and the revision there is now; null where nobody has the number. */
export interface WorkedOut {
  readonly patientId: string
  readonly before: StandingRow | null
  readonly revision: number | null
}

/** Keeps answers worked out before the write lock was taken where they are of what there is now; evaluates the other patients afresh. */
export function keepWorkedOut(tx: Tx, all: readonly WorkedOut[], plan: FollowUpPlan, today: Day): void {
  // By whom it is about: what came for two records that are read as one is one answer.
  const rows = new Map<string, StandingRow>()
  for (const { patientId, before, revision } of all) {
    const holds = before !== null && before.historyRevision === revision && before.planVersion === plan.version
    const row = holds ? before : freshStanding(tx, patientId, plan, today)
    if (row !== null) rows.set(row.patientId, row)
  }
  tx.saveStandings([...rows.values()])
}
