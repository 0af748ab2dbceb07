import type { Call, Outcome } from '../call.ts'
import { countFailedTry } from '../sessions/failedTry.ts'
import { CODE_REFUSED, isCode } from './activate.ts'

/** A one-time code that was shown to be right, until it is used up: the account, and the SHA-256 of the code. */
export interface PresentedCode {
  readonly account: string
  readonly codeHash: string
}

/**
 * Is this the account's one-time code? Asked before its person goes to the identity provider, so that a mistyped code is said at once; it is used up
 * only with the identity that comes back. A wrong one counts as a failed try and is not told apart from an unknown name (`not-allowed`).
 */
export async function presentCode(call: Call, given: { readonly name: string; readonly code: string }): Promise<Outcome<PresentedCode>> {
  const { reader } = call.store
  const name = given.name.normalize('NFKC').trim()
  const known = reader.account(name)
  if (isCode(known, given.code, call.now) && known.codeHash !== null) {
    if (reader.identityOf(known.id) === null) return { ok: true, value: { account: known.name, codeHash: known.codeHash } }
    return { ok: false, kind: 'invalid', reason: 'This account is joined to an identity already. The administrator has to unjoin it first.' }
  }
  const actor = { ...call.actor, name: known?.name ?? '(unknown name)' }
  return call.store.record<Outcome<PresentedCode>>({ actor, now: call.now }, (tx) => {
    const account = tx.account(name)
    countFailedTry(tx, account, { at: call.now, address: call.actor.address })
    return { value: { ok: false, kind: 'not-allowed', reason: CODE_REFUSED }, events: [{ action: 'sign-in', outcome: 'failure' }] }
  })
}
