import { gap } from '../gap.ts'
import { dueFacts, lastDone } from '../lastDone.ts'
import type { FollowUpRule } from '../rule.ts'

export const dueInGrace: FollowUpRule = {
  id: 'due-in-grace',
  asks: 'Is a test past its due day and still inside its grace?',
  source: 'follow-up plan; grace of 25 % of the interval, at most 30 days (ours)',
  check: (course, due) =>
    due
      .filter((test) => course.today > test.dueOn && course.today <= test.graceEndsOn)
      .map((test) => gap({ rule: 'due-in-grace', window: 'next-visit', since: test.dueOn, evidence: lastDone(course, test), facts: dueFacts(test) })),
}
