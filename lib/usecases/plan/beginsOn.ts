import type { FollowUpPlan } from '../../plan/index.ts'
import { addDays, type Day, laterDay, parseDay } from '../../time/index.ts'

// A version far ahead would stand in the way of every change before it.
const MOST_DAYS_AHEAD = 366

/**
 * The days on which a new version can begin: not in the past, for what was in force stays in force; not before the last version begins, which would
 * otherwise take the change back on its own first day; and not more than 366 days ahead (ours).
 */
export function beginningDays(last: FollowUpPlan, today: Day): { readonly earliest: Day; readonly latest: Day } {
  const earliest = laterDay(today, last.from)
  return { earliest, latest: laterDay(earliest, addDays(today, MOST_DAYS_AHEAD)) }
}

/** The day a text names, where a version can begin on it; else what is wrong with it. */
export function readBeginning(text: string, last: FollowUpPlan, today: Day): { readonly day: Day } | { readonly problem: string } {
  const from = parseDay(text)
  if (from === null) return { problem: 'is not a day written YYYY-MM-DD' }
  const { earliest, latest } = beginningDays(last, today)
  if (from < today) return { problem: `is in the past: the plan of a past day stays what it was. The earliest day is ${earliest}` }
  if (from < earliest) return { problem: `is before version ${last.version} begins: the earliest day is ${earliest}` }
  if (from > latest) return { problem: `is more than ${MOST_DAYS_AHEAD} days ahead: the latest day is ${latest}` }
  return { day: from }
}
