import { randomUUID } from 'node:crypto'
import type { Store } from '../store/index.ts'
import type { Call } from './call.ts'
import { clinicDay } from './clinicDay.ts'

/** A call from the command line: the actor is the operating-system user, in the role `console`. Reads the clock, once. */
export function consoleCall(store: Store, user: string): Call {
  const now = new Date()
  return {
    store,
    actor: { name: user, role: 'console', sessionHash: null, address: null, requestId: randomUUID() },
    now: now.toISOString(),
    today: clinicDay(now),
  }
}
