import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { changeAccount } from './changeAccount.ts'
import { freshCode, type OneTimeCode } from './oneTimeCode.ts'

/** A new one-time code for somebody who lost the password: the sessions end, and the old password serves until a new one is chosen. */
export function giveCode(call: Call, { name }: { readonly name: string }): Promise<Outcome<OneTimeCode>> {
  return changeAccount(call, name, (tx, account) => {
    if (account.disabledAt !== null) return { ok: false, kind: 'invalid', reason: `Account ${account.name} is disabled.` }
    const { shown, secret } = freshCode(call.now)
    tx.setCode(account.id, secret)
    const count = endAllSessions(tx, account.id, call.now, 'ended-by-administrator')
    return {
      value: shown,
      events: [
        { action: 'account-code-given', account: account.name },
        { action: 'sessions-ended', account: account.name, count },
      ],
    }
  })
}
