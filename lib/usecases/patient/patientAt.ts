import type { Permission } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { OpenedPatient } from '../emergency/views.ts'
import type { ExportedFile } from '../export/exportedFile.ts'
import type { CompareWish } from '../look/views.ts'
import { patientMerges } from '../merges/readMerges.ts'
import type { PatientMergesView } from '../merges/views.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { exportPatient } from './exportPatient.ts'
import { openPatient, type PaperPatient, patientOnPaper } from './openPatient.ts'

/** The patient at an address, for a use case that asks permission and writes its entry itself. */
export async function atAddress<T>(
  call: Call,
  address: string,
  open: (patientId: string) => Promise<Outcome<T>>,
  needs: Permission = 'patient.read',
): Promise<Outcome<T>> {
  const patientId = call.store.reader.patientIdAt(address)
  if (patientId !== null) return open(patientId)
  // Whoever may not open a patient is not told which addresses are somebody's.
  const refused = await refusedUnlessMay(call, needs, 'patient')
  return refused ?? { ok: false, kind: 'not-found', reason: 'No patient is at this address.' }
}

/** One patient for the patient page, by what stands for the patient in its address. */
export function openPatientAt(call: Call, address: string, wish: CompareWish | null = null): Promise<Outcome<OpenedPatient>> {
  return atAddress(call, address, (patientId) => openPatient(call, patientId, null, wish))
}

/** What that page says of merges. */
export function patientMergesAt(call: Call, address: string): Promise<Outcome<PatientMergesView>> {
  return atAddress(call, address, (patientId) => patientMerges(call, patientId))
}

/** The same patient as a FHIR file. */
export function exportPatientAt(call: Call, address: string): Promise<Outcome<ExportedFile>> {
  return atAddress(call, address, (patientId) => exportPatient(call, patientId), 'patient.export')
}

/** The same patient for a sheet of paper. */
export function patientOnPaperAt(call: Call, address: string): Promise<Outcome<PaperPatient>> {
  return atAddress(call, address, (patientId) => patientOnPaper(call, patientId), 'patient.export')
}
