import type { Call, Outcome } from '../call.ts'
import { handleOf, openSessions } from '../sessions/openSessions.ts'
import { changeAccount } from './changeAccount.ts'

/** Ends one open session of an account at once. `handle` is what the list of accounts shows of it; one of another account is not found. */
export function endSession(call: Call, { name, handle }: { readonly name: string; readonly handle: string }): Promise<Outcome<null>> {
  return changeAccount(call, name, (tx, account) => {
    const session = openSessions(tx, call.now).find((open) => open.accountId === account.id && handleOf(open) === handle)
    if (session === undefined) return { ok: false, kind: 'not-found', reason: `This session of ${account.name} has ended already.` }
    tx.endSession(session.id, call.now, 'ended-by-administrator')
    return { value: null, events: [{ action: 'sessions-ended', account: account.name, count: 1, session: session.id }] }
  })
}
