import type { DueTest } from '../../plan/index.ts'
import type { Window } from '../finding.ts'
import { gap } from '../gap.ts'
import { dueFacts, lastDone } from '../lastDone.ts'
import { mayBeLateDays } from '../lateness.ts'
import type { FollowUpRule } from '../rule.ts'

function windowOf(due: DueTest): Window {
  return due.daysLate > mayBeLateDays(due) ? 'within-7-days' : 'within-30-days'
}

export const overdue: FollowUpRule = {
  id: 'overdue',
  asks: 'Is a test past its due day and past its grace?',
  source: 'follow-up plan; grace of 25 % of the interval, at most 30 days (ours)',
  check: (course, due) =>
    due
      .filter((test) => course.today > test.graceEndsOn)
      .map((test) => gap({ rule: 'overdue', window: windowOf(test), since: test.dueOn, evidence: lastDone(course, test), facts: dueFacts(test) })),
}
