import type { Course } from '../course/index.ts'
import type { DueTest } from '../plan/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { crossingsHoldUntil } from './crossings.ts'
import type { Finding } from './finding.ts'
import { firstSampleOn } from './firstSample.ts'
import { mayBeLateDays } from './lateness.ts'
import { secondExpectedBy } from './secondExpected.ts'

/**
 * The last day on which gaps and projections stay as they are when nothing arrives: a test falls due, its grace ends, it grows so late that it cannot
 * wait, a second sample is expected, a line meets its level. Null when no day from today on changes them.
 */
export function gapsHoldUntil(course: Course, due: readonly DueTest[], found: readonly Finding[]): Day | null {
  const { today } = course
  const days = [
    ...due.flatMap((test) => [test.dueOn, test.graceEndsOn, addDays(test.dueOn, mayBeLateDays(test))]),
    ...found.flatMap((finding) => secondExpectedBy(finding, course.thresholds) ?? []),
    ...[crossingsHoldUntil(course, due, found) ?? []].flat(),
    ...course.held.map((row) => addDays(row.receivedOn, -1)),
    // Without any value there is no day to count from but today.
    ...(course.hasResults && course.phase === null && firstSampleOn(course) === null ? [today] : []),
  ]
  return days.filter((on) => on >= today).sort()[0] ?? null
}
