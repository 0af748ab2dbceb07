import { firstSampleOn } from '../firstSample.ts'
import { gap } from '../gap.ts'
import type { FollowUpRule } from '../rule.ts'

export const noCourse: FollowUpRule = {
  id: 'no-course',
  asks: 'Has a followed patient results, but no recorded phase of the disease?',
  source: '(ours)',
  check: (course) => {
    if (!course.hasResults || course.phase !== null || course.leftOn !== null) return []
    const first = firstSampleOn(course)
    return [gap({ rule: 'no-course', window: 'within-30-days', since: first ?? course.today, facts: first === null ? {} : { first } })]
  },
}
