import type { Role } from '../../access/index.ts'
import type { Store, StoredAccount } from '../../store/index.ts'
import type { Actor } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'
import { prove, type Weighed, weigh } from './proof.ts'
import { digestOf, randomToken } from './token.ts'

/** When and from where somebody signs in. */
export interface SignInFacts {
  readonly now: Date
  readonly requestId: string
  readonly address: string | null
}

export interface SignedInSession {
  /** What the browser is to hold; the database keeps its SHA-256 only. */
  readonly sessionId: string
  readonly name: string
  readonly role: Role
}

/** One sentence for every refusal: an unknown name, a wrong password, a wrong or missing code, a disabled account and a wait all answer alike. */
const REFUSED = 'The name, the password or the code is not right, or there were too many tries: then wait a while and try again.'

/** What was typed may be a password or a patient's name by mistake, so a name that is no account's is not written down. */
const UNKNOWN = '(unknown name)'

/**
 * Signs in with a password, and a code where the account has a second factor; a code that is not asked for counts nothing. Waits grow with failures and
 * are kept in the database. Refused as `not-allowed` in the same words whatever was wrong; `unavailable` when the log row cannot be written: then nobody
 * is signed in.
 */
export async function signIn(
  store: Store,
  given: { readonly name: string; readonly password: string; readonly code?: string },
  { now, requestId, address }: SignInFacts,
): Promise<Outcome<SignedInSession>> {
  const at = now.toISOString()
  const weighed = await weigh(store, given.name.normalize('NFKC').trim(), { password: given.password, code: given.code ?? '' })
  const actor: Actor = { name: weighed.known?.name ?? UNKNOWN, role: 'none', sessionHash: null, address, requestId }
  const sessionId = randomToken()
  try {
    const account = await recordSignIn(store, actor, at, digestOf(sessionId), weighed)
    if (account === null) return { ok: false, kind: 'not-allowed', reason: REFUSED }
    return { ok: true, value: { sessionId, name: account.name, role: account.role } }
  } catch {
    return { ok: false, kind: 'unavailable', reason: 'The log cannot be written at the moment, so nobody can be signed in. Try again soon.' }
  }
}

function recordSignIn(store: Store, actor: Actor, at: string, id: string, weighed: Weighed): Promise<StoredAccount | null> {
  const { address } = actor
  return store.record<StoredAccount | null>({ actor, now: at }, (tx) => {
    const proof = prove(tx, weighed, { at, address })
    if (proof === null) return { value: null, events: [{ action: 'sign-in', outcome: 'failure' }] }
    const { account, means, events } = proof
    tx.insertSession({ id, accountId: account.id, at, address, means })
    return {
      value: account,
      events: [{ action: 'sign-in', outcome: 'success' }, ...events],
      actor: { ...actor, role: account.role, sessionHash: id },
    }
  })
}
