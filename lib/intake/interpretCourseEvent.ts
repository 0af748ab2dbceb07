import type { CourseEvent, Patient } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { COURSE_EVENTS, courseEventOf, unusedColumn } from './courseEvent.ts'
import { dayIn } from './dateText.ts'
import { lifetimeProblem } from './lifetime.ts'
import type { Interpreted, Problem } from './reason.ts'
import { field, isProblem, patientIdOf, type RawRow, rowProblem, wordOf } from './row.ts'
import { problem } from './sentences.ts'

/** Reads a row of the course for a patient (null: unknown). A column the event does not use must be empty: nothing that was written is dropped. */
export function interpretCourseEvent(raw: RawRow, patient: Patient | null, today: Day): Interpreted<CourseEvent> {
  const on = dayIn(raw, 'on')
  const spokenOf = isProblem(on) ? null : on
  const failed = (found: Problem): Interpreted<CourseEvent> => (found.outcome === 'held' ? { ...found, on: spokenOf } : found)
  const unreadable = rowProblem(raw, ['patient_id', 'on', 'event'])
  if (unreadable !== null) return failed(unreadable)
  if (isProblem(on)) return failed(on)
  if (on === null) return failed(problem('missing-field', { column: 'on', text: '' }))
  const name = wordOf(raw, 'event', COURSE_EVENTS)
  if (isProblem(name)) return failed(name)
  if (name === null) return failed(problem('missing-field', { column: 'event', text: '' }))
  const unused = unusedColumn(raw, name)
  if (unused !== null) return failed(problem('column-not-used', { column: unused, text: field(raw, unused), detail: name }))
  const event = courseEventOf(raw, name, on)
  if (isProblem(event) && event.outcome === 'refused') return event
  if (raw.doubt) return failed(raw.doubt)
  const patientId = patientIdOf(raw)
  if (patient?.id !== patientId) return failed(problem('unknown-patient', { column: 'patient_id', text: patientId }))
  if (isProblem(event)) return failed(event)
  const when = lifetimeProblem('happened', 'on', on, on, patient, today)
  return when === null ? { outcome: 'take', value: event } : failed(when)
}
