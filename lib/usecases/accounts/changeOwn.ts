import type { Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type Proof, prove, type Shown, weigh } from '../sessions/proof.ts'
import { type AccountChange, NotChanged } from './changeAccount.ts'

const NOT_PROVEN = 'The password or the code is not right, or there were too many tries: then wait a while and try again.'

/** Whose session it is that asks: by its name, with the number of its row. Null at the command line, which has no account of its own. */
export function sessionOf({ actor }: Call): { readonly name: string; readonly sessionHash: string } | null {
  return actor.sessionHash === null ? null : { name: actor.name, sessionHash: actor.sessionHash }
}

export const NO_OWN_ACCOUNT = {
  ok: false,
  kind: 'not-found',
  reason: 'This is done by a person who is signed in, on the page "Your account".',
} as const

/**
 * A change of one's own account: may, show once more that it is the person of the account, change it and log it in one write. A wrong password or code
 * is a failed sign-in, with its waits. A refusal inside the change leaves everything as it was, and the code that was shown unspent.
 */
export async function changeOwn<T>(
  call: Call,
  shown: Shown,
  change: (tx: Tx, proof: Proof, sessionHash: string) => AccountChange<T>,
): Promise<Outcome<T>> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own account')
  if (refused !== null) return refused
  const session = sessionOf(call)
  if (session === null) return NO_OWN_ACCOUNT
  const weighed = await weigh(call.store, session.name, shown)
  try {
    return await call.store.record<Outcome<T>>(call, (tx) => {
      const proof = prove(tx, weighed, { at: call.now, address: call.actor.address })
      if (proof === null)
        return { value: { ok: false, kind: 'not-allowed', reason: NOT_PROVEN }, events: [{ action: 'sign-in', outcome: 'failure' }] }
      const changed = change(tx, proof, session.sessionHash)
      if ('ok' in changed) throw new NotChanged(changed)
      return { value: { ok: true, value: changed.value }, events: [...proof.events, ...changed.events] }
    })
  } catch (error) {
    if (error instanceof NotChanged) return error.refusal
    throw error
  }
}
