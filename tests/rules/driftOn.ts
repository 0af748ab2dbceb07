import { DEFAULT_THRESHOLDS, type Thresholds, traceCourse } from '../../lib/course/index.ts'
import { riskAssessments } from '../../lib/models/index.ts'
import { DEFAULT_PLAN, type DueTest, testsDue } from '../../lib/plan/index.ts'
import { courseFindings, driftAfterDue, type Finding, type RuleId } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** What one rule that asks the plan or other findings finds on a day, by the default plan or what is due otherwise, and the clinic's thresholds. */
export function driftOn(
  rule: RuleId,
  words: HistoryWords,
  today: string,
  asked: { readonly due?: readonly DueTest[]; readonly thresholds?: Partial<Thresholds> } = {},
): readonly Finding[] {
  const course = traceCourse(history(words), day(today), { ...DEFAULT_THRESHOLDS, ...asked.thresholds })
  const due = asked.due ?? testsDue(course, DEFAULT_PLAN, riskAssessments(course), [])
  return driftAfterDue(course, due, courseFindings(course)).filter((finding) => finding.rule === rule)
}
