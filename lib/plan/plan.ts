import type { Thresholds } from '../course/index.ts'
import type { Care } from '../results/index.ts'
import type { Day } from '../time/index.ts'

export const TEST_GROUPS = ['serum-m-protein', 'free-light-chains', 'blood-count', 'chemistry', 'urine-24h', 'immunoglobulins', 'imaging'] as const
export type TestGroup = (typeof TEST_GROUPS)[number]

export type Interval = { readonly days: number } | { readonly months: number }

/** Risk as far as the plan asks: MGUS low or not (Rajkumar 2005), smouldering by the factors of 20/2/20. */
export type PlanRisk = 'low' | 'not-low' | 'fewer-than-2-factors' | '2-factors-or-more'

/** Whom a row of the plan is for. `active` includes the phases run like it; null asks for nothing. */
export type PlanFor =
  | {
      readonly who: 'phase'
      readonly phase: 'mgus' | 'smouldering' | 'active'
      readonly care: readonly Care[] | null
      readonly risk: PlanRisk | null
    }
  /** Active disease with an unconfirmed finding: the test that raised it, counted from its sample. */
  | { readonly who: 'unconfirmed-finding' }
  | { readonly who: 'bone-agent'; readonly agents: readonly string[] }

/** How often a test is asked for until some time after the phase began; null for as long as the phase lasts. */
export interface PlanStep {
  readonly every: Interval
  readonly until: Interval | null
}

export interface PlanRow {
  /** Stands for the row in forms and in the database; never changed. */
  readonly id: string
  /** Whom it is for, in words. */
  readonly name: string
  readonly for: PlanFor
  /** `urine-24h` is asked for only when urine was measurable at baseline. Empty where the finding names the test. */
  readonly groups: readonly TestGroup[]
  /** In order; after the last one that ends nothing more is asked for. */
  readonly steps: readonly PlanStep[]
  readonly source: string
}

/** One version of the clinic's follow-up plan. */
export interface FollowUpPlan {
  readonly version: string
  /** The first day it was followed. */
  readonly from: Day
  readonly rows: readonly PlanRow[]
  /** How late a test may be before it is overdue: whole per cent of the interval, and days at most. */
  readonly grace: { readonly percent: number; readonly atMostDays: number }
  /** The clinic's other choices. */
  readonly thresholds: Thresholds
}

/** One test group of one patient: when it was last done, when it is due, and how late it is. */
export interface DueTest {
  readonly group: TestGroup
  readonly lastDoneOn: Day | null
  readonly dueOn: Day
  readonly graceEndsOn: Day
  /** Days past `dueOn` on the day asked about; 0 when not past it. */
  readonly daysLate: number
  /** Days of one more interval from `dueOn` on: late by a whole interval once `daysLate` reaches it. */
  readonly intervalDays: number
  /** Why it is due: the plan's row, in words. */
  readonly because: string
}

/** A test that an unconfirmed finding asks to be repeated. */
export interface Repeat {
  readonly group: TestGroup
  readonly sampledOn: Day
}
