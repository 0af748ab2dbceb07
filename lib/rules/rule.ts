import type { Course } from '../course/index.ts'
import type { DueTest } from '../plan/index.ts'
import type { Finding } from './finding.ts'
import type { RuleId } from './ruleId.ts'
import type { Judged } from './runs.ts'

/** A rule that asks the course alone. Pure: today is `course.today`. Returns current findings and, with `endedOn`, past ones. */
export interface CourseRule {
  readonly id: RuleId
  /** The question it asks, in one sentence for the page that lists rules. */
  readonly asks: string
  readonly source: string
  readonly check: (course: Course) => readonly Finding[]
  /**
   * What it judges sample by sample, of rules whose unconfirmed findings ask for a test of the plan to be repeated: on which days one can have been
   * unconfirmed is seen in one look over the course. Nothing that would be told is missing; something other findings hide may be in it.
   */
  readonly judged?: (course: Course) => readonly Judged[]
}

/** A rule that asks what is due and what else was found: gaps, and what depends on another finding. */
export interface FollowUpRule {
  readonly id: RuleId
  readonly asks: string
  readonly source: string
  readonly check: (course: Course, due: readonly DueTest[], found: readonly Finding[]) => readonly Finding[]
}
