import type { Call, Outcome } from '../call.ts'
import { digestOf } from './token.ts'

/** Ends the session at once. Signing out of one that has ended already is no failure. */
export async function signOut(call: Call, sessionId: string): Promise<Outcome<null>> {
  const id = digestOf(sessionId)
  if (call.actor.sessionHash !== id) return { ok: false, kind: 'not-allowed', reason: 'This is not your session.' }
  return call.store.record(call, (tx) => {
    tx.endSession(id, call.now, 'sign-out')
    return { value: { ok: true, value: null }, events: [{ action: 'sign-out' }] }
  })
}
