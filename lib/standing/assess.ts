import { traceCourse } from '../course/index.ts'
import { assessResponse, riskAssessments } from '../models/index.ts'
import { type FollowUpPlan, testsDue } from '../plan/index.ts'
import { type History, historyAsOf } from '../results/index.ts'
import { partAnswered, sortFindings } from '../review/index.ts'
import { courseFindings, driftAfterDue, type Finding, GAP_RULES } from '../rules/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import type { Assessment } from './assessment.ts'
import { attributed } from './attributed.ts'
import { corrected } from './corrected.ts'
import { holdsUntil } from './holdsUntil.ts'
import { repeatsFor } from './repeats.ts'

function latestEndedFirst(a: Finding, b: Finding): number {
  return compareDays(b.endedOn ?? b.since, a.endedOn ?? a.since)
}

/**
 * Everything said of one patient on a day, as if only what was collected or recorded by then existed. Pure: the same history, plan and day give the
 * same answer. For a patient who has left the clinic nothing is due and no gap is told; what the results show stays.
 */
export function assess(history: History, plan: FollowUpPlan, today: Day): Assessment {
  const course = traceCourse(history, today, plan.thresholds)
  const found = courseFindings(course)
  const risk = riskAssessments(course)
  const due = testsDue(course, plan, risk, repeatsFor(found))
  const drift = driftAfterDue(course, due, found)
  const gaps = course.leftOn === null ? GAP_RULES.flatMap((rule) => rule.check(course, due, found)) : []
  const known = historyAsOf(history, today)
  const { told, attributions } = attributed([...found, ...drift, ...gaps], course, known.decisions)
  const { told: all, changes } = corrected(sortFindings(told), known, today)
  const current = all.filter((finding) => finding.endedOn === null)
  const { open, answers, handovers } = partAnswered(current, known.decisions, today)
  return {
    asOf: today,
    course,
    known,
    findings: [...open, ...answers.keys()],
    open,
    answers,
    handovers,
    attributions,
    changes,
    history: all.filter((finding) => finding.endedOn !== null).sort(latestEndedFirst),
    due,
    risk,
    response: assessResponse(course),
    window: open[0]?.window ?? 'on-schedule',
    holdsUntil: holdsUntil(history, course, due, found, [
      ...[...answers.values()].map((answer) => answer.bringBackOn),
      ...[...attributions.values()].map((attribution) => attribution.until),
    ]),
  }
}
