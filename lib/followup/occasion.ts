import type { PlanRisk, TestGroup } from '../plan/index.ts'
import type { Care, Phase } from '../results/index.ts'
import type { Day } from '../time/index.ts'

/** Why an occasion counts neither for nor against the clinic. */
export const EXCLUSIONS = ['died', 'transferred', 'discharged', 'plan-not-in-force'] as const
export type Exclusion = (typeof EXCLUSIONS)[number]
export type Left = Exclude<Exclusion, 'plan-not-in-force'>

/**
 * What became of a test that was due. `pending`: its grace runs still, and it was not done; `excluded` names why it is not counted. Both are no part of
 * what is counted as due.
 */
export type Verdict = 'on-time' | 'late' | 'missed' | 'pending' | 'excluded'

/** How a patient stood on a day, as far as the audit groups by it. */
export interface Stood {
  /** The version of the plan that asked. */
  readonly planVersion: string
  readonly phase: Phase | null
  readonly care: Care | null
  /** Risk as the plan's rows ask for it; null in active disease. */
  readonly risk: PlanRisk | null
  readonly clinician: string | null
}

/** One due day of one test group: what the list asked for on that day, and when it was done. */
export interface Occasion extends Stood {
  readonly group: TestGroup
  readonly dueOn: Day
  readonly graceEndsOn: Day
  /** The day of the sample that did it; null where none has. */
  readonly doneOn: Day | null
  readonly verdict: Verdict
  /** Null unless the verdict is `excluded`. */
  readonly excluded: Exclusion | null
  /** Days from the due day to the sample, of one that was done late; else 0. */
  readonly daysLate: number
  /** The day of the sample that last did the test before; null before the first. */
  readonly lastDoneOn: Day | null
}
