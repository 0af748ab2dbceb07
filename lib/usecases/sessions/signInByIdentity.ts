import type { Identity, Store } from '../../store/index.ts'
import type { Actor } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'
import { beginSession } from './beginSession.ts'
import { identityDigest } from './identityDigest.ts'
import { PROVIDER_REFUSED, providerFailure } from './providerFailure.ts'
import type { SignedInSession, SignInFacts } from './signIn.ts'

/**
 * Signs in whom the identity provider vouched for: the account joined to this issuer and subject, in the role it has here. An identity nobody was
 * joined to and a disabled account are refused (`not-allowed`) in the same words; the log has the reason, and the identity as its SHA-256.
 * Throws where the log cannot be written: then nobody is signed in.
 */
export function signInByIdentity(store: Store, identity: Identity, { now, requestId, address }: SignInFacts): Promise<Outcome<SignedInSession>> {
  const at = now.toISOString()
  const nobody: Actor = { name: '(unknown name)', role: 'none', sessionHash: null, address, requestId }
  return store.record<Outcome<SignedInSession>>({ actor: nobody, now: at }, (tx) => {
    const account = tx.accountOfIdentity(identity)
    if (account === null || account.disabledAt !== null) {
      const because = account === null ? 'unknown-identity' : 'disabled'
      const actor = { ...nobody, name: account?.name ?? nobody.name }
      return { value: PROVIDER_REFUSED, events: [providerFailure(because, identityDigest(identity))], actor }
    }
    const { sessionId, id } = beginSession(tx, account, at, address)
    return {
      value: { ok: true, value: { sessionId, name: account.name, role: account.role } },
      events: [{ action: 'sign-in', outcome: 'success', by: 'provider' }],
      actor: { ...nobody, name: account.name, role: account.role, sessionHash: id },
    }
  })
}
