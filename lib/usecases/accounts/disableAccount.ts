import type { Call, Outcome } from '../call.ts'
import { changeAccount, isLastAdministrator } from './changeAccount.ts'

/** Disables an account for good; its sessions end at once. Refused for the last administrator, except from the command line. */
export function disableAccount(call: Call, { name }: { readonly name: string }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    if (account.disabledAt !== null) return { ok: false, kind: 'invalid', reason: `Account ${account.name} is disabled already.` }
    if (call.actor.role !== 'console' && isLastAdministrator(tx, account)) {
      return { ok: false, kind: 'invalid', reason: 'This is the last administrator: nobody could manage accounts any more. Add another one first.' }
    }
    tx.setDisabled(account.id, call.now)
    const endedSessions = tx.endSessionsOf(account.id, call.now, 'disabled')
    return { value: { endedSessions }, events: [{ action: 'account-disabled', account: account.name }] }
  })
}
