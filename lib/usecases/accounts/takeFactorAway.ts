import type { Call, Outcome } from '../call.ts'
import { hasFactor } from '../secondFactor/hasFactor.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { changeAccount } from './changeAccount.ts'

function isOwn({ actor }: Call, name: string): boolean {
  return actor.role !== 'console' && actor.name.toLowerCase() === name.toLowerCase()
}

/** Takes a lost second factor away from somebody else's account, its recovery codes too; its sessions end at once. */
export function takeFactorAway(call: Call, { name }: { readonly name: string }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    if (isOwn(call, account.name)) {
      return { ok: false, kind: 'invalid', reason: 'Your own second factor is turned off on the page "Your account", with the password and a code.' }
    }
    if (!hasFactor(tx, account.id)) {
      return { ok: false, kind: 'invalid', reason: `Account ${account.name} has no second factor.` }
    }
    tx.removeSecondFactor(account.id, call.now)
    const endedSessions = endAllSessions(tx, account.id, call.now, 'ended-by-administrator')
    return {
      value: { endedSessions },
      events: [
        { action: 'second-factor-taken-away', account: account.name },
        { action: 'sessions-ended', account: account.name, count: endedSessions },
      ],
    }
  })
}
