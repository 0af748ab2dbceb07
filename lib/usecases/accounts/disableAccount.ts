import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { changeAccount, isLastAdministrator } from './changeAccount.ts'

/** Disables an account for good; its sessions end at once. Refused for the last administrator, except from the command line. */
export function disableAccount(call: Call, { name }: { readonly name: string }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    if (account.disabledAt !== null) return { ok: false, kind: 'invalid', reason: `Account ${account.name} is disabled already.` }
    if (call.actor.role !== 'console' && isLastAdministrator(tx, account)) {
      return { ok: false, kind: 'invalid', reason: 'This is the last administrator: nobody could manage accounts any more. Add another one first.' }
    }
    // First: of a disabled account no session holds, so none could be counted.
    const endedSessions = endAllSessions(tx, account.id, call.now, 'disabled')
    tx.setDisabled(account.id, call.now)
    return { value: { endedSessions }, events: [{ action: 'account-disabled', account: account.name }] }
  })
}
