import { addDays, type Day, daysBetween } from '../time/index.ts'

/** Days after which an answered finding comes back where no due day is ahead (ours). */
const NO_DUE_DAY_DAYS = 90

interface Due {
  readonly dueOn: Day
  readonly intervalDays: number
}

// A test that was not done counts with the next day its interval names, so that its absence puts nothing off for long.
function nextTurn({ dueOn, intervalDays }: Due, today: Day): Day {
  const turns = Math.floor(daysBetween(dueOn, today) / Math.max(1, intervalDays)) + 1
  return addDays(dueOn, turns * Math.max(1, intervalDays))
}

/**
 * The latest day a review may bring a finding back on, always after today: the next due day ahead. Where every test is past its day, the first day on
 * which one would be due again, and at most 90 days from today; where nothing is due, 90 days from today (ours).
 */
export function bringBackAtMost(due: readonly Due[], today: Day): Day {
  const ahead = due.map(({ dueOn }) => dueOn).filter((on) => on > today)
  const days = ahead.length > 0 ? ahead : [...due.map((test) => nextTurn(test, today)), addDays(today, NO_DUE_DAY_DAYS)]
  return days.toSorted()[0] as Day
}
