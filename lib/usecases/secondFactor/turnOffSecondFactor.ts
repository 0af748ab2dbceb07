import { isShortPassword, LEAST_CHARACTERS } from '../../access/index.ts'
import { changeOwn } from '../accounts/changeOwn.ts'
import { endOthers } from '../accounts/endOthers.ts'
import type { Call, Outcome } from '../call.ts'
import type { Shown } from '../sessions/proof.ts'
import { HAS_NONE } from './makeRecoveryCodes.ts'

/** Turns the second factor of the own account off, with the password and a code. Refused with a password that is too short to stand alone. */
export async function turnOffSecondFactor(call: Call, shown: Shown): Promise<Outcome<null>> {
  if (isShortPassword(shown.password)) {
    const reason = `Without a second factor the password needs at least ${LEAST_CHARACTERS.alone} characters, and the one you typed has fewer. Change your password first.`
    return { ok: false, kind: 'invalid', reason }
  }
  return changeOwn(call, shown, (tx, { account, means }, sessionHash) => {
    if (means === 'password') return HAS_NONE
    tx.removeSecondFactor(account.id, call.now)
    tx.setSessionMeans(sessionHash, 'password')
    const off = { action: 'second-factor-turned-off', account: account.name } as const
    return { value: null, events: [off, ...endOthers(tx, account, sessionHash, call.now)] }
  })
}
