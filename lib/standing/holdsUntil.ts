import type { Course } from '../course/index.ts'
import type { DueTest } from '../plan/index.ts'
import { exclusionsOf, type History, historyAsOf } from '../results/index.ts'
import { courseFindingsHoldUntil, type Finding, gapsHoldUntil } from '../rules/index.ts'
import { addDays, type Day } from '../time/index.ts'

// What is dated after today is already here and counts from its day on.
function stillToCome(history: History, today: Day): Day | null {
  const { patient, results, events, held, decisions, courseChanges, changes } = history
  const excluded = exclusionsOf(historyAsOf(history, today).decisions)
  const days = [
    ...results.filter((result) => !excluded.has(result.id)).map((result) => result.collected.on),
    ...events.map((event) => event.on),
    ...held.map((row) => row.collectedOn ?? row.receivedOn),
    ...decisions.map((decision) => decision.on),
    ...courseChanges.map((change) => change.on),
    ...changes.map((change) => change.on),
    ...(patient.statusOn === null ? [] : [patient.statusOn]),
  ]
  const next = days.filter((on) => on > today).sort()[0]
  return next === undefined ? null : addDays(next, -1)
}

/**
 * The last day on which everything said today stays as it is when nothing arrives: before a danger grows stale, a test falls due, a grace ends, a
 * second sample is late, a step up in risk lapses, a projected line meets its level, or an answered or attributed finding comes back (`comeBackOn`). Null
 * when no day changes it.
 */
export function holdsUntil(
  history: History,
  course: Course,
  due: readonly DueTest[],
  found: readonly Finding[],
  comeBackOn: readonly Day[],
): Day | null {
  const { today, leftOn } = course
  const days = [
    courseFindingsHoldUntil(found, course),
    leftOn === null ? gapsHoldUntil(course, due, found) : null,
    stillToCome(history, today),
    ...comeBackOn.map((on) => addDays(on, -1)),
  ]
  return days.filter((on) => on !== null).sort()[0] ?? null
}
