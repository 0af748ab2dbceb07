import type { Intent, Phase } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'

/** A change of the course as the page lists it. */
export interface CourseChangeView {
  readonly id: number
  readonly by: string
  readonly on: Day
  readonly reason: string
  readonly says: string
  /** What came in and does not count because of it; `since` came after it was said. */
  readonly intakeSaid: readonly { readonly says: string; readonly since: boolean }[]
  readonly takenBack: { readonly by: string; readonly on: Day; readonly reason: string } | null
  /** Whether it is the last word on its thing. */
  readonly isLast: boolean
}

/** The course as it counts, to be changed, and what was changed of it, latest first. `by` is the physician who said so; null where it came in. */
export interface CourseRecordView {
  readonly phases: readonly { readonly phase: Phase; readonly on: Day; readonly by: string | null }[]
  readonly lines: readonly {
    readonly number: number
    readonly start: Day
    readonly end: Day | null
    readonly regimen: readonly string[]
    readonly intent: Intent | null
  }[]
  readonly care: string | null
  readonly clinician: string | null
  readonly changes: readonly CourseChangeView[]
}
