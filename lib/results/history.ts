import type { Day } from '../time/index.ts'
import type { CourseChange } from './courseChange.ts'
import type { Decision } from './decision.ts'
import type { FindingChange } from './findingChange.ts'
import type { LabResult } from './labResult.ts'
import type { CourseEvent, HeldNotice, Patient } from './patient.ts'

/**
 * All that is known of one patient: current result versions (withdrawn ones left out), course events, rows held, what people decided and changed, and
 * what corrections did to findings told before.
 */
export interface History {
  readonly patient: Patient
  readonly results: readonly LabResult[]
  readonly events: readonly CourseEvent[]
  readonly held: readonly HeldNotice[]
  readonly decisions: readonly Decision[]
  /** What physicians changed of the course, first change first; the events stay as they came. */
  readonly courseChanges: readonly CourseChange[]
  readonly changes: readonly FindingChange[]
}

/** The history as if only what was collected, happened or was decided by `asOf` existed. */
export function historyAsOf(history: History, asOf: Day): History {
  const { patient } = history
  const leftLater = patient.statusOn !== null && patient.statusOn > asOf
  return {
    patient: leftLater ? { ...patient, status: 'followed', statusOn: null } : patient,
    results: history.results.filter((result) => result.collected.on <= asOf),
    events: history.events.filter((event) => event.on <= asOf),
    held: history.held.filter((row) => (row.collectedOn ?? row.receivedOn) <= asOf),
    decisions: history.decisions.filter((decision) => decision.on <= asOf),
    courseChanges: history.courseChanges.filter((change) => change.on <= asOf),
    changes: history.changes.filter((change) => change.on <= asOf),
  }
}
