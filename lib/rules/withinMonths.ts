import { addMonths, type Day, daysBetween } from '../time/index.ts'

/** The shortest and the longest year: between them a count of days does not tell months, and the calendar is asked, which takes much longer. */
const SHORT_YEAR = 365
const LONG_YEAR = 366
/** By how many days so many months can differ from their share of a year. */
const UNEVEN_DAYS = 3

/** True when `earlier` lies at most so many calendar months before `later`, the day itself included. */
export function withinMonths(earlier: Day, later: Day, months: number): boolean {
  const days = daysBetween(earlier, later)
  if (days <= (months * SHORT_YEAR) / 12 - UNEVEN_DAYS) return true
  return days <= (months * LONG_YEAR) / 12 + UNEVEN_DAYS && earlier >= addMonths(later, -months)
}
