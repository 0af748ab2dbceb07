import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { activate } from '../../../lib/usecases/accounts/activate.ts'
import { addAccount } from '../../../lib/usecases/accounts/addAccount.ts'
import type { Call, Outcome } from '../../../lib/usecases/call.ts'

export const NOW = '2026-11-25T10:00:00.000Z'
export const PASSWORD = 'seven boats on a river'

/** A moment so many seconds after the tests' own. */
export function later(seconds: number): string {
  return new Date(Date.parse(NOW) + seconds * 1000).toISOString()
}

/** A call in somebody's name; the console's unless a role is given. */
export function callOf(store: Store, role: Role | 'console' | 'none' = 'console', now = NOW): Call {
  return { store, actor: { name: `a ${role}`, role, sessionHash: null, address: null, requestId: 'r' }, now, today: day(now.slice(0, 10)) }
}

/** The value of an answer; throws its reason where it is a refusal. */
export function granted<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.reason)
  return outcome.value
}

/** An account with its password chosen. */
export async function addPerson(store: Store, name: string, role: Role): Promise<void> {
  const { code } = granted(await addAccount(callOf(store), { name, role }))
  granted(await activate(callOf(store, 'none'), { name, code, password: PASSWORD }))
}

/** The events of the log, oldest first, each with who did it. */
export function logged(store: Store): { actor: string; role: string; action: string; outcome: string }[] {
  const { rows } = store.reader.trailPage({ actor: null, limit: 1000, offset: 0 })
  return rows.toReversed().map(({ actor, role, action, outcome }) => ({ actor, role, action, outcome }))
}
