import 'server-only'
import { may } from '../../lib/access/index.ts'
import { openClosedRecord } from './emergencyActs.ts'
import { signedIn } from './session.ts'

/** Opening a closed record, for whoever may; else null, and then the page has no form for it. The action asks again for itself. */
export async function emergencyAct(): Promise<typeof openClosedRecord | null> {
  const person = await signedIn()
  return person !== null && may(person.role, 'emergency.open').allowed ? openClosedRecord : null
}
