import { gap } from '../gap.ts'
import type { FollowUpRule } from '../rule.ts'
import { secondExpectedBy } from '../secondExpected.ts'
import { windowFor } from '../window.ts'

export const confirmationOverdue: FollowUpRule = {
  id: 'confirmation-overdue',
  asks: 'Does an unconfirmed progression, myeloma-defining event, relapse from complete response or light-chain escape still wait for its second sample after 28 days?',
  source: '(ours)',
  check: (course, _due, found) =>
    found.flatMap((finding) => {
      const expectedBy = secondExpectedBy(finding, course.thresholds)
      if (expectedBy === null || course.today <= expectedBy) return []
      return [
        gap({
          rule: 'confirmation-overdue',
          // What waits for confirmation is itself no more than possible: then so is the gap.
          certainty: finding.certainty,
          window: windowFor(finding.certainty, 'within-7-days'),
          since: expectedBy,
          evidence: finding.evidence,
          facts: { rule: finding.rule, on: finding.facts.on ?? finding.since, expectedBy },
        }),
      ]
    }),
}
