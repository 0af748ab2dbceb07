import { may } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { personName } from '../personName.ts'
import { pseudonymsOf } from '../pseudonyms/pseudonymsOf.ts'

/** A patient behind a figure: either the number or the pseudonym, what the reader may know. */
export interface PatientShown {
  readonly patientId: string | null
  readonly pseudonym: string | null
  /** As pages print it; null where none is recorded, under a pseudonym, and of a record that is closed. */
  readonly name: string | null
  /** What stands for the patient in the address of their page; null where there is none this reader may open as they are. */
  readonly address: string | null
}

/** How patients are shown to whoever asks. */
export interface PatientsShown {
  readonly pseudonymous: boolean
  readonly of: (patientId: string) => PatientShown
}

const NOBODY: PatientShown = { patientId: null, pseudonym: null, name: null, address: null }

/** Whether whoever asks reads patients under pseudonyms alone. */
export function readsPseudonyms({ actor }: Call): boolean {
  return !may(actor.role === 'none' ? null : actor.role, 'patient.read').allowed
}

/** A patient for whoever may open them; of a closed record the number alone, as the log has it. */
function named({ store: { reader } }: Call, patientId: string, open: boolean): PatientShown {
  const stored = open ? reader.patient(patientId) : null
  if (stored === null) return { ...NOBODY, patientId }
  return { patientId, pseudonym: null, name: personName(stored.patient), address: reader.patientAddress(patientId) }
}

/** Patients by number for whoever may open them, else under pseudonyms. Refused where the key of the pseudonyms is missing. */
export function patientsShown(call: Call): Outcome<PatientsShown> {
  if (!readsPseudonyms(call)) {
    const open = new Set(call.store.reader.followedPatientIds())
    return { ok: true, value: { pseudonymous: false, of: (patientId) => named(call, patientId, open.has(patientId)) } }
  }
  const pseudonyms = pseudonymsOf(call)
  if (!pseudonyms.ok) return pseudonyms
  return { ok: true, value: { pseudonymous: true, of: (patientId) => ({ ...NOBODY, pseudonym: pseudonyms.value.of(patientId) }) } }
}
