import { type Day, earlierDay } from '../time/index.ts'
import type { PatientAudit } from './patientAudit.ts'
import { waitOf } from './waits.ts'

/** What may wait behind a figure: tests past their grace at its end, findings nobody ever answered, and those whose second sample never came. */
export const WAITING = ['overdue', 'unanswered', 'no-second'] as const
export type WaitingKind = (typeof WAITING)[number]

/** One thing that waits, or waited until nobody could do it any more. */
export interface Waiting {
  /** The test group, or the rule of the finding. */
  readonly what: string
  /** The due day, or the day of the first sample that showed it. */
  readonly since: Day
  /** The last day it is watched; for a test the end of the period. */
  readonly until: Day
  readonly days: number
}

/** What waits of one patient: for each kind as many as the figures count. */
export function waitingOf({ overdue, flagged, watchedUntil }: PatientAudit, kind: WaitingKind): readonly Waiting[] {
  if (kind === 'overdue') return overdue.map(({ group, dueOn, age, on }) => ({ what: group, since: dueOn, until: on, days: age }))
  if (kind === 'unanswered') {
    return flagged
      .filter(({ answeredOn }) => answeredOn === null)
      .map(({ rule, since, endedOn }) => {
        const until = endedOn === null ? watchedUntil : earlierDay(endedOn, watchedUntil)
        return { what: rule, since, until, days: waitOf(since, null, watchedUntil, endedOn).days }
      })
  }
  return flagged
    .filter(({ needsSecond, since, secondOn }) => needsSecond && !waitOf(since, secondOn, watchedUntil, null).over)
    .map(({ rule, since }) => ({ what: rule, since, until: watchedUntil, days: waitOf(since, null, watchedUntil, null).days }))
}
