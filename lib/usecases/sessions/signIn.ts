import type { Role } from '../../access/index.ts'
import type { Store, StoredAccount, Tx } from '../../store/index.ts'
import type { Actor } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'
import { countFailedTry, mustWait } from './failedTry.ts'
import { isPassword } from './passwordHash.ts'
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

/** One sentence for every refusal: an unknown name, a wrong password, a disabled account and a wait all answer alike. */
const REFUSED = 'The name or the password is not right, or there were too many tries: then wait a while and try again.'

/** What was typed may be a password or a patient's name by mistake, so a name that is no account's is not written down. */
const UNKNOWN = '(unknown name)'

/**
 * Signs in with a password. Waits grow with failures and are kept in the database. Refused as `not-allowed` in the same words whatever was wrong;
 * `unavailable` when the log row cannot be written: then nobody is signed in.
 */
export async function signIn(
  store: Store,
  given: { readonly name: string; readonly password: string },
  { now, requestId, address }: SignInFacts,
): Promise<Outcome<SignedInSession>> {
  const name = given.name.normalize('NFKC').trim()
  const at = now.toISOString()
  const known = store.reader.account(name)
  const matches = await isPassword(known?.disabledAt === null ? known.passwordHash : null, given.password)
  const sessionId = randomToken()
  const id = digestOf(sessionId)
  // Told afresh inside the transaction: other tries may have failed, or the account been disabled, while the password was hashed.
  const decide = (tx: Tx): StoredAccount | null => {
    const account = tx.account(name)
    const holds = matches && account !== null && account.disabledAt === null && account.passwordHash === known?.passwordHash && !mustWait(account, at)
    if (holds) tx.insertSession({ id, accountId: account.id, at, address })
    else if (account !== null) countFailedTry(tx, account, at)
    return holds ? account : null
  }
  const actor: Actor = { name: known?.name ?? UNKNOWN, role: 'none', sessionHash: null, address, requestId }
  try {
    const account = await recordSignIn(store, actor, at, id, decide)
    if (account === null) return { ok: false, kind: 'not-allowed', reason: REFUSED }
    return { ok: true, value: { sessionId, name: account.name, role: account.role } }
  } catch {
    return { ok: false, kind: 'unavailable', reason: 'The log cannot be written at the moment, so nobody can be signed in. Try again soon.' }
  }
}

function recordSignIn(store: Store, actor: Actor, at: string, id: string, decide: (tx: Tx) => StoredAccount | null): Promise<StoredAccount | null> {
  return store.record({ actor, now: at }, (tx) => {
    const account = decide(tx)
    return {
      value: account,
      events: [{ action: 'sign-in', outcome: account === null ? 'failure' : 'success' }],
      ...(account === null ? {} : { actor: { ...actor, role: account.role, sessionHash: id } }),
    }
  })
}
