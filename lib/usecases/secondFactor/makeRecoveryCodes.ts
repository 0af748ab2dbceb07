import { changeOwn } from '../accounts/changeOwn.ts'
import type { Call, Outcome } from '../call.ts'
import type { Shown } from '../sessions/proof.ts'
import { type MadeCodes, makeCodes } from './recoveryCodes.ts'

export const HAS_NONE = { ok: false, kind: 'invalid', reason: 'You have no second factor.' } as const

/** New recovery codes for the own account, shown once, with the password and a code; earlier ones no longer count. */
export function makeRecoveryCodes(call: Call, shown: Shown): Promise<Outcome<MadeCodes>> {
  return changeOwn(call, shown, (tx, { account, means }, sessionHash) => {
    if (means === 'password' || means === 'short-password') return HAS_NONE
    const { made, event } = makeCodes(tx, account, call.now)
    tx.setSessionMeans(sessionHash, 'password-and-code')
    return { value: made, events: [event] }
  })
}
