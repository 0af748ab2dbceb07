import type { Day } from '../time/index.ts'

export const TEST_GROUPS = ['serum-m-protein', 'free-light-chains', 'blood-count', 'chemistry', 'urine-24h', 'immunoglobulins', 'imaging'] as const
export type TestGroup = (typeof TEST_GROUPS)[number]

export type Interval = { readonly days: number } | { readonly months: number }

/** One test group of one patient: when it was last done, when it is due, and how late it is. */
export interface DueTest {
  readonly group: TestGroup
  readonly lastDoneOn: Day | null
  readonly dueOn: Day
  readonly graceEndsOn: Day
  /** Days past `dueOn` on the day asked about; 0 when not past it. */
  readonly daysLate: number
  /** Length of the interval in days, for how soon lateness matters. */
  readonly intervalDays: number
  /** Why it is due: the plan's row, in words. */
  readonly because: string
}

/** A test that an unconfirmed finding asks to be repeated. */
export interface Repeat {
  readonly group: TestGroup
  readonly sampledOn: Day
}
