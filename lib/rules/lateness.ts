import type { DueTest } from '../plan/index.ts'

/** Intervals up to six weeks count lateness in days, longer ones in whole intervals (clinical.md 3.5). */
const SHORT_INTERVAL_DAYS = 42
const SHORT_MAY_BE_LATE_DAYS = 14

/** The most days late at which an overdue test is looked at within 30 days; later than that, within 7 days. */
export function mayBeLateDays({ intervalDays }: Pick<DueTest, 'intervalDays'>): number {
  return intervalDays <= SHORT_INTERVAL_DAYS ? SHORT_MAY_BE_LATE_DAYS : intervalDays - 1
}
