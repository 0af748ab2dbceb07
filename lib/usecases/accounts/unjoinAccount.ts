import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { identityDigest } from '../sessions/identityDigest.ts'
import { changeAccount, isLastAdministrator } from './changeAccount.ts'

/**
 * Ends what joins an account to single sign-on; its sessions end at once. A password it has goes on serving; without one its person needs a new
 * one-time code. Refused for the last administrator without a password, except from the command line.
 */
export function unjoinAccount(call: Call, { name }: { readonly name: string }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    const identity = tx.identityOf(account.id)
    if (identity === null) return { ok: false, kind: 'invalid', reason: `Account ${account.name} is not joined to single sign-on.` }
    if (call.actor.role !== 'console' && account.passwordHash === null && isLastAdministrator(tx, account)) {
      return { ok: false, kind: 'invalid', reason: 'This is the last administrator: nobody could manage accounts any more. Add another one first.' }
    }
    tx.endIdentity(identity.id, call.actor.name, call.now)
    const endedSessions = endAllSessions(tx, account.id, call.now, 'ended-by-administrator')
    return {
      value: { endedSessions },
      events: [
        { action: 'account-unjoined', account: account.name, identity: identityDigest(identity) },
        { action: 'sessions-ended', account: account.name, count: endedSessions },
      ],
    }
  })
}
