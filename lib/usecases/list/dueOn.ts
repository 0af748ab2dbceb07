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

/** The next test's due day: the earliest of those not overdue, one in its grace included; null where all are overdue or none is due. */
export function nextDueOn(due: readonly KeptDue[], today: Day): Day | null {
  const coming = due.filter((test) => today <= test.graceEndsOn).map((test) => test.dueOn)
  return coming.toSorted()[0] ?? null
}
