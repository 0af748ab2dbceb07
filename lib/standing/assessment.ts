import type { Course } from '../course/index.ts'
import type { ResponseAssessment, RiskAssessment } from '../models/index.ts'
import type { DueTest } from '../plan/index.ts'
import type { FindingChange, History } from '../results/index.ts'
import type { Answer, Handover } from '../review/index.ts'
import type { Finding, Window } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import type { Attribution } from './attributed.ts'

/** Everything Lowmark says of one patient on one day. */
export interface Assessment {
  readonly asOf: Day
  readonly course: Course
  /** All that was collected, recorded and decided by that day, excluded results included. */
  readonly known: History
  /** Current findings: those that are open, most urgent first, then those a review answers, in the same order. */
  readonly findings: readonly Finding[]
  /** Current findings no review answers: they alone decide where the patient stands. */
  readonly open: readonly Finding[]
  readonly answers: ReadonlyMap<Finding, Answer>
  /** What was handed to a physician of a current finding, which stays open until one answers it. */
  readonly handovers: ReadonlyMap<Finding, Handover>
  /** The other cause a physician recorded, of each finding for which it holds. */
  readonly attributions: ReadonlyMap<Finding, Attribution>
  /** The last correction behind each finding, current or past, that a correction made, changed, ended or took back. */
  readonly changes: ReadonlyMap<Finding, FindingChange>
  /** Findings the latest samples no longer show, and those a correction took back; latest ended first. */
  readonly history: readonly Finding[]
  readonly due: readonly DueTest[]
  readonly risk: readonly RiskAssessment[]
  readonly response: ResponseAssessment
  /** The soonest window of its open findings; on-schedule without any. */
  readonly window: Window
  /** The last day this answer holds when nothing arrives; null when no day changes it. */
  readonly holdsUntil: Day | null
}
