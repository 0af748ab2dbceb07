import { type Interpreted, interpretCourseEvent, interpretPatient, interpretResult, type RawRow, type TableKind } from '../../intake/index.ts'
import type { CourseEvent, IncomingResult, Patient } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'

/** A row understood, by the kind of its file. */
export type ReadRow =
  | { readonly kind: 'patients'; readonly read: Interpreted<Patient> }
  | { readonly kind: 'course'; readonly read: Interpreted<CourseEvent> }
  | { readonly kind: 'results'; readonly read: Interpreted<IncomingResult> }

/** Understands one row, given the patient it names as known now. */
export function readRow(kind: TableKind, raw: RawRow, patient: Patient | null, today: Day): ReadRow {
  if (kind === 'patients') return { kind, read: interpretPatient(raw, patient, today) }
  if (kind === 'course') return { kind, read: interpretCourseEvent(raw, patient, today) }
  return { kind, read: interpretResult(raw, patient, today) }
}
