import type { StoredAccount, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** What a change of an account leads to, told inside its transaction: an answer with its log rows, or why it cannot be done. */
export type AccountChange<T> = { readonly value: T; readonly events: readonly TrailEvent[] } | Refusal

/** Thrown inside a change, so that nothing of it is kept. */
export class NotChanged extends Error {
  readonly refusal: Refusal

  constructor(refusal: Refusal) {
    super(refusal.reason)
    this.refusal = refusal
  }
}

/** May, find the account, change it and log it in one write. A refusal inside the change leaves everything as it was. */
export async function changeAccount<T>(call: Call, name: string, change: (tx: Tx, account: StoredAccount) => AccountChange<T>): Promise<Outcome<T>> {
  const refused = await refusedUnlessMay(call, 'accounts.manage', 'accounts')
  if (refused !== null) return refused
  const sought = name.normalize('NFKC').trim()
  try {
    const value = await call.store.record(call, (tx) => {
      const account = tx.account(sought)
      if (account === null) throw new NotChanged({ ok: false, kind: 'not-found', reason: `There is no account named ${sought}.` })
      const changed = change(tx, account)
      if ('ok' in changed) throw new NotChanged(changed)
      return changed
    })
    return { ok: true, value }
  } catch (error) {
    if (error instanceof NotChanged) return error.refusal
    throw error
  }
}

/** Would nobody be left who manages accounts, were this account gone? */
export function isLastAdministrator(tx: Tx, account: StoredAccount): boolean {
  const others = tx
    .accounts()
    .filter(
      (other) => other.role === 'administrator' && other.disabledAt === null && (other.passwordHash !== null || tx.identityOf(other.id) !== null),
    )
  return account.role === 'administrator' && others.every((other) => other.id === account.id)
}
