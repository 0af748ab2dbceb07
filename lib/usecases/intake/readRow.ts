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
import type { Reader, StoredPatient } from '../../store/index.ts'
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

/** A row with what its source means by it. */
interface Meant {
  readonly raw: RawRow
  readonly meant: MeantRow
  /** The version of the knowledge it was read with. */
  readonly knownAs: string
  readonly patientId: string
}

/** The same with what it says, and the patient it was read against (null: nobody known by that name). */
export interface Understood extends Meant {
  readonly patient: StoredPatient | null
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

function asMeant(raw: RawRow, source: SourceKnowledge): Meant {
  const meant = asSourceMeans(raw, source)
  return { raw, meant, knownAs: source.version, patientId: patientIdOf(meant.raw) }
}

function against({ raw, meant, knownAs, patientId }: Meant, patient: StoredPatient | null, today: Day): Understood {
  return { raw, meant, knownAs, patientId, patient, row: readRow(meant.raw, patient?.patient ?? null, today) }
}

/** Understands one row with what is known of its source, against the patient as `find` knows them. */
export function understand(raw: RawRow, source: SourceKnowledge, find: (id: string) => StoredPatient | null, today: Day): Understood {
  const meant = asMeant(raw, source)
  return against(meant, find(meant.patientId), today)
}

/** Understands rows in their order. Of patients nothing is read ahead: one row of theirs decides how the next is read. All others are asked for at once. */
export function understandAll(raws: readonly RawRow[], source: SourceKnowledge, reader: Pick<Reader, 'patientsOf'>, today: Day): Understood[] {
  const meant = raws.map((raw) => asMeant(raw, source))
  const named = meant.flatMap(({ raw: { kind }, patientId }) => (kind === 'patients' ? [] : [patientId]))
  const stored = reader.patientsOf([...new Set(named)])
  return meant.map((row) => against(row, row.raw.kind === 'patients' ? null : (stored.get(row.patientId) ?? null), today))
}
