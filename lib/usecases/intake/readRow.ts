import {
  asSourceMeans,
  type Interpreted,
  interpretCourseEvent,
  interpretPatient,
  interpretResult,
  type MeantRow,
  patientIdOf,
  type RawRow,
  type SourceKnowledge,
} from '../../intake/index.ts'
import type { CourseEvent, IncomingResult, Patient } from '../../results/index.ts'
import type { StoredPatient } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'

/** A row understood, by its kind. */
export type ReadRow =
  | { readonly kind: 'patients'; readonly read: Interpreted<Patient> }
  | { readonly kind: 'course'; readonly read: Interpreted<CourseEvent> }
  | { readonly kind: 'results'; readonly read: Interpreted<IncomingResult> }

/** Understands one row, given the patient it names as known now. */
export function readRow(raw: RawRow, patient: Patient | null, today: Day): ReadRow {
  const { kind } = raw
  if (kind === 'patients') return { kind, read: interpretPatient(raw, patient, today) }
  if (kind === 'course') return { kind, read: interpretCourseEvent(raw, patient, today) }
  return { kind, read: interpretResult(raw, patient, today) }
}

/** A row with what its source means by it, what it says, and the version of the patient it was read against (null: nobody known by that name). */
export interface Understood {
  readonly raw: RawRow
  readonly meant: MeantRow
  /** The version of the knowledge it was read with. */
  readonly knownAs: string
  readonly patientId: string
  readonly patientVersion: number | null
  readonly row: ReadRow
}

/** Finds a patient by the identifier a row gives, each asked for once: thousands of rows name the same few hundred. */
export function rememberingPatients(find: (id: string) => StoredPatient | null): (id: string) => StoredPatient | null {
  const found = new Map<string, StoredPatient | null>()
  return (id) => {
    const known = found.get(id)
    if (known !== undefined) return known
    const stored = find(id)
    found.set(id, stored)
    return stored
  }
}

/** Understands one row with what is known of its source, against the patient as `find` knows them. */
export function understand(raw: RawRow, source: SourceKnowledge, find: (id: string) => StoredPatient | null, today: Day): Understood {
  const meant = asSourceMeans(raw, source)
  const patientId = patientIdOf(meant.raw)
  const stored = find(patientId)
  const row = readRow(meant.raw, stored?.patient ?? null, today)
  return { raw, meant, knownAs: source.version, patientId, patientVersion: stored?.version ?? null, row }
}
