import 'server-only'
import { may } from '../../lib/access/index.ts'
import type { PatientMergesView } from '../../lib/usecases/index.ts'
import { patientMergesAt } from '../../lib/usecases/index.ts'
import type { MergeActs } from '../_parts/merge/index.ts'
import { comparePatientRecords, confirmPatientMerge, declinePatientMerge, endPatientMerge, proposePatientMerge } from './merges.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

/** What can be done about merges. Each action asks again for itself. */
export const MERGE_ACTS: MergeActs = {
  compare: comparePatientRecords,
  propose: proposePatientMerge,
  confirm: confirmPatientMerge,
  decline: declinePatientMerge,
  end: endPatientMerge,
}

/** What a patient page says of merges; null for whoever may not, and where the page itself says that there is no such patient. */
export async function mergesOfPatient(address: string): Promise<PatientMergesView | null> {
  const person = await signedIn()
  if (person === null || !may(person.role, 'patient.merge').allowed) return null
  const outcome = await unlessUnavailable(() => patientMergesAt(person.call, address))
  return outcome.ok ? outcome.value : null
}
