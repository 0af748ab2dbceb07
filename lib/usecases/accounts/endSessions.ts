import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { changeAccount } from './changeAccount.ts'

/** Ends every session of an account at once; the person has to sign in again. */
export function endSessions(call: Call, { name }: { readonly name: string }): Promise<Outcome<{ endedSessions: number }>> {
  return changeAccount(call, name, (tx, account) => {
    const endedSessions = endAllSessions(tx, account.id, call.now, 'ended-by-administrator')
    return { value: { endedSessions }, events: [{ action: 'sessions-ended', account: account.name, count: endedSessions }] }
  })
}
