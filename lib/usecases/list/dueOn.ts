import { type Day, daysBetween } from '../../time/index.ts'
import type { KeptDue } from './standingAnswer.ts'

export interface OverdueJson {
  readonly group: string
  readonly dueOn: Day
  readonly daysLate: number
}

/** Test groups past their due day and its grace on a day, with whole days since the due day. */
export function overdueOn(due: readonly KeptDue[], today: Day): OverdueJson[] {
  return due.filter((test) => today > test.graceEndsOn).map(({ group, dueOn }) => ({ group, dueOn, daysLate: daysBetween(dueOn, today) }))
}

/** The next day on which a test is due, from today on; null where none is. What is past its due day is overdue or in grace, not next. */
export function nextDueOn(due: readonly KeptDue[], today: Day): Day | null {
  const coming = due.map((test) => test.dueOn).filter((dueOn) => dueOn >= today)
  return coming.toSorted()[0] ?? null
}
