import { traceCourse } from '../../lib/course/index.ts'
import { courseFindings } from '../../lib/rules/index.ts'
import type { Assessment } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** An assessment with the course and its findings; nothing due, no risk, no response: charts ask for none of them. */
export function assessed(words: HistoryWords, today: string): Assessment {
  const known = history(words)
  const course = traceCourse(known, day(today))
  const findings = courseFindings(course)
  const current = findings.filter(({ endedOn }) => endedOn === null)
  return {
    asOf: course.today,
    course,
    known,
    findings: current,
    open: current,
    answers: new Map(),
    handovers: new Map(),
    attributions: new Map(),
    changes: new Map(),
    history: findings.filter(({ endedOn }) => endedOn !== null),
    due: [],
    risk: [],
    response: { category: null, state: null, provisional: false, missing: [] },
    window: 'on-schedule',
    holdsUntil: null,
  }
}
