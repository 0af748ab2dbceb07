import { isShortPassword, type SignInMeans } from '../../access/index.ts'
import type { Store, StoredAccount, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import { readShownCode, type ShownCode, spendCode } from '../secondFactor/shownCode.ts'
import { addressMustWait, countFailedTry, mustWait, type TriedFrom } from './failedTry.ts'
import { isPassword } from './passwordHash.ts'

/** What a person types to show who they are. */
export interface Shown {
  readonly password: string
  /** A code of the authenticator or a recovery code; empty without a second factor. */
  readonly code: string
}

/** What was shown, with its password compared: the slow part, done outside of any transaction. */
export interface Weighed {
  readonly name: string
  readonly shown: Shown
  /** Whose password it was compared with; null for a name that is no account's. */
  readonly known: StoredAccount | null
  readonly matches: boolean
}

export interface Proof {
  readonly account: StoredAccount
  readonly means: SignInMeans
  /** What showing it was an event of, beside what it is shown for. */
  readonly events: readonly TrailEvent[]
}

/** Compares the password of an account; for an unknown name, or a disabled account, the same work. */
export async function weigh(store: Store, name: string, shown: Shown): Promise<Weighed> {
  const known = store.reader.account(name)
  return { name, shown, known, matches: await isPassword(known?.disabledAt === null ? known.passwordHash : null, shown.password) }
}

function meansOf(code: ShownCode, password: string): SignInMeans {
  if (code.kind === 'code') return 'password-and-code'
  if (code.kind === 'recovery') return 'recovery-code'
  return isShortPassword(password) ? 'short-password' : 'password'
}

/**
 * Is it the person of this account? Told afresh inside the transaction: other tries may have failed, the account been disabled, or the same code have
 * counted, while the password was hashed. What is right is spent, and clears what failed before; anything wrong is one failed try, and null.
 */
export function prove(tx: Tx, { name, shown, known, matches }: Weighed, tried: TriedFrom): Proof | null {
  const account = tx.account(name)
  const code = readShownCode(tx, account?.id ?? null, shown.code, tried.at)
  const fits = matches && account !== null && account.disabledAt === null && account.passwordHash === known?.passwordHash
  // Many tries from one address guess passwords; with a second factor shown as well, this is no guess, and a clinic behind one address is not locked out.
  const mayTry = account !== null && !mustWait(account, tried.at) && !(code.kind === 'not-asked' && addressMustWait(tx, tried))
  if (!fits || !mayTry || code.kind === 'wrong') {
    countFailedTry(tx, account, tried)
    return null
  }
  spendCode(tx, account.id, code, tried.at)
  tx.setFailures(account.id, 0, null)
  const used: TrailEvent = { action: 'recovery-code-used', account: account.name, left: tx.recoveryCodesLeft(account.id) }
  return { account, means: meansOf(code, shown.password), events: code.kind === 'recovery' ? [used] : [] }
}
