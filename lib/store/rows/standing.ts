import type { RuleId, Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import type { OpenFinding } from './openFinding.ts'

/** The last answer about one patient, with what it rests on. One row a patient. */
export interface StandingRow {
  readonly patientId: string
  readonly historyRevision: number
  /** False for those who left: kept, but not on the review list. */
  readonly followed: boolean
  readonly rulesVersion: string
  readonly planVersion: string
  readonly evaluatedOn: Day
  /** The last day the answer holds when nothing arrives; null when no day changes it. */
  readonly holdsUntil: Day | null
  readonly windowRank: number
  readonly stateRank: number
  readonly organRank: number
  readonly since: Day | null
  readonly excess: number
  readonly nextDueOn: Day | null
  readonly phase: string
  readonly care: string | null
  readonly clinician: string | null
  /** The rule at the top and its state; null on schedule. */
  readonly rule: string | null
  readonly state: string | null
  readonly window: Window
  /** The answer as canonical JSON text. */
  readonly answer: string
  /** Every rule with a current finding, for the filter. */
  readonly rules: readonly RuleId[]
  /** Its open findings, in order of their keys; none for those who left. */
  readonly open: readonly OpenFinding[]
  /** Whose review a correction came after, in order of name. */
  readonly comesBackTo: readonly string[]
}

/** Columns of `standing` and the field each keeps. */
export const STANDING_COLUMNS = {
  patient_id: 'patientId',
  history_revision: 'historyRevision',
  followed: 'followed',
  rules_version: 'rulesVersion',
  plan_version: 'planVersion',
  evaluated_on: 'evaluatedOn',
  holds_until: 'holdsUntil',
  window_rank: 'windowRank',
  state_rank: 'stateRank',
  organ_rank: 'organRank',
  since: 'since',
  excess: 'excess',
  next_due_on: 'nextDueOn',
  phase: 'phase',
  care: 'care',
  clinician: 'clinician',
  rule: 'rule',
  state: 'state',
  window: 'window',
  answer: 'answer',
} as const satisfies Readonly<Record<string, keyof StandingRow>>
