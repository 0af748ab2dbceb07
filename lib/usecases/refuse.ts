import { may, type Permission } from '../access/index.ts'
import type { Call, Outcome } from './call.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** Asks whether the actor may; a refusal is written to the log before it is answered. Null where it is allowed. */
export async function refusedUnlessMay(call: Call, permission: Permission, object: string): Promise<Refusal | null> {
  const { role } = call.actor
  const answer = may(role === 'none' ? null : role, permission)
  if (answer.allowed) return null
  await call.store.record(call, () => ({ value: null, events: [{ action: 'access-refused', permission, object }] }))
  return { ok: false, kind: 'not-allowed', reason: answer.reason }
}
