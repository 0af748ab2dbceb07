import 'server-only'
import { may } from '../../lib/access/index.ts'
import { signedIn } from './session.ts'
import { previewPatientSheet, releasePatientSheet, withdrawPatientSheet } from './sheetActs.ts'

/** What whoever is signed in may do about sheets; null where nothing. Only leaves forms out: each action asks again for itself. */
export async function sheetActs() {
  const role = (await signedIn())?.role ?? null
  return may(role, 'sheet.release').allowed ? { preview: previewPatientSheet, release: releasePatientSheet, withdraw: withdrawPatientSheet } : null
}
