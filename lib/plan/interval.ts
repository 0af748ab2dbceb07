import { addDays, addMonths, type Day, daysBetween } from '../time/index.ts'
import type { FollowUpPlan, Interval } from './plan.ts'

/** The day one interval after `from`; months are calendar months. */
export function plusInterval(from: Day, interval: Interval): Day {
  return 'days' in interval ? addDays(from, interval.days) : addMonths(from, interval.months)
}

/** "28 days", "1 month". */
export function intervalText(interval: Interval): string {
  const [count, unit] = 'days' in interval ? [interval.days, 'day'] : [interval.months, 'month']
  return `${count} ${unit}${count === 1 ? '' : 's'}`
}

/** Whole days a test that is due one interval after `from` may be late: a share of the interval, rounded down, and never more than the plan allows. */
export function graceDays({ percent, atMostDays }: FollowUpPlan['grace'], from: Day, interval: Interval): number {
  const days = daysBetween(from, plusInterval(from, interval))
  return Math.min(Math.floor((days * percent) / 100), atMostDays)
}
