import type { Role } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { changeAccount, isLastAdministrator } from './changeAccount.ts'

/** Gives an account another role; its sessions end at once, so that nobody goes on with the old one. */
export function changeRole(call: Call, { name, role }: { readonly name: string; readonly role: Role }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    if (account.disabledAt !== null) return { ok: false, kind: 'invalid', reason: `Account ${account.name} is disabled.` }
    if (account.role === role) return { ok: false, kind: 'invalid', reason: `Account ${account.name} has the role ${role} already.` }
    if (isLastAdministrator(tx, account)) {
      return { ok: false, kind: 'invalid', reason: 'This is the last administrator: nobody could manage accounts any more. Add another one first.' }
    }
    tx.setRole(account.id, role)
    const endedSessions = endAllSessions(tx, account.id, call.now, 'role-changed')
    return { value: { endedSessions }, events: [{ action: 'account-role-changed', account: account.name, from: account.role, to: role }] }
  })
}
