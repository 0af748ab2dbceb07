import type { Course } from '../course/index.ts'
import type { ResponseAssessment, RiskAssessment } from '../models/index.ts'
import type { DueTest } from '../plan/index.ts'
import type { Finding, Window } from '../rules/index.ts'
import type { Day } from '../time/index.ts'

/** Everything Lowmark says of one patient on one day. */
export interface Assessment {
  readonly asOf: Day
  readonly course: Course
  /** Current findings, most urgent first. */
  readonly findings: readonly Finding[]
  /** Findings the latest samples no longer show, latest ended first. */
  readonly history: readonly Finding[]
  readonly due: readonly DueTest[]
  readonly risk: readonly RiskAssessment[]
  readonly response: ResponseAssessment
  /** The soonest window of its findings; on-schedule without any. */
  readonly window: Window
  /** The last day this answer holds when nothing arrives; null when no day changes it. */
  readonly holdsUntil: Day | null
}
