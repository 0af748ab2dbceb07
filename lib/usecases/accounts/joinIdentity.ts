import { timingSafeEqual } from 'node:crypto'
import type { Identity, Store, StoredAccount, Tx } from '../../store/index.ts'
import type { Actor } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'
import { beginSession } from '../sessions/beginSession.ts'
import { identityDigest } from '../sessions/identityDigest.ts'
import { PROVIDER_REFUSED, providerFailure } from '../sessions/providerFailure.ts'
import type { SignedInSession, SignInFacts } from '../sessions/signIn.ts'
import { isGoodCode } from './oneTimeCode.ts'
import type { PresentedCode } from './presentCode.ts'

function mayJoin(tx: Tx, account: StoredAccount | null, identity: Identity, codeHash: string, at: string): account is StoredAccount {
  if (account === null || account.disabledAt !== null || account.codeHash === null || account.codeExpiresAt === null) return false
  const [kept, presented] = [Buffer.from(account.codeHash), Buffer.from(codeHash)]
  if (kept.length !== presented.length || !timingSafeEqual(kept, presented) || !isGoodCode(account.codeExpiresAt, at)) return false
  return tx.identityOf(account.id) === null && tx.accountOfIdentity(identity) === null
}

/**
 * Joins an account to the identity that came back from the provider, uses up the one-time code and signs in. Asks again, in the same transaction,
 * that the code still counts, that the account is joined to nobody and the identity to no account. Refused like any other sign-in with the provider.
 */
export function joinIdentity(
  store: Store,
  { account: name, codeHash }: PresentedCode,
  identity: Identity,
  { now, requestId, address }: SignInFacts,
): Promise<Outcome<SignedInSession>> {
  const at = now.toISOString()
  const person: Actor = { name, role: 'none', sessionHash: null, address, requestId }
  const digest = identityDigest(identity)
  return store.record<Outcome<SignedInSession>>({ actor: person, now: at }, (tx) => {
    const account = tx.account(name)
    if (!mayJoin(tx, account, identity, codeHash, at)) return { value: PROVIDER_REFUSED, events: [providerFailure('not-joined', digest)] }
    tx.insertIdentity({ accountId: account.id, ...identity, madeBy: account.name, madeAt: at })
    tx.clearCode(account.id)
    const { sessionId, id } = beginSession(tx, account, at, address)
    return {
      value: { ok: true, value: { sessionId, name: account.name, role: account.role } },
      events: [
        { action: 'account-joined', account: account.name, identity: digest },
        { action: 'sign-in', outcome: 'success', by: 'provider' },
      ],
      actor: { ...person, role: account.role, sessionHash: id },
    }
  })
}
