import { changeOwn } from '../accounts/changeOwn.ts'
import { endOthers } from '../accounts/endOthers.ts'
import type { Call, Outcome } from '../call.ts'
import { plainCode } from '../sessions/token.ts'
import { secretOffered } from './offerSecondFactor.ts'
import { type MadeCodes, makeCodes } from './recoveryCodes.ts'
import { seal } from './seal.ts'
import { factorOf } from './shownCode.ts'
import { stepOfCode } from './totp.ts'

const NO_OFFER = {
  ok: false,
  kind: 'invalid',
  reason: 'This secret is no longer offered: it is older than 30 minutes, or your second factor was changed meanwhile. Begin again.',
} as const
const NOT_THIS_CODE = {
  ok: false,
  kind: 'invalid',
  reason: 'The code does not fit this secret. Type the one the app shows now; if it stays wrong, check the clock of the device.',
} as const

/** The second factor of the own account, with the current password and a first code made with the secret offered. Answers its recovery codes, shown once. */
export function setUpSecondFactor(
  call: Call,
  { offer, password, code }: { readonly offer: string; readonly password: string; readonly code: string },
): Promise<Outcome<MadeCodes>> {
  return changeOwn(call, { password, code: '' }, (tx, { account }, sessionHash) => {
    const secret = secretOffered(tx, account, sessionHash, offer, call.now)
    if (secret === null) return NO_OFFER
    const step = stepOfCode(secret, plainCode(code), call.now)
    if (step === null) return NOT_THIS_CODE
    tx.setSecondFactor(account.id, { sealed: seal(secret, factorOf(account.id)), at: call.now, step })
    const { made, event } = makeCodes(tx, account, call.now)
    tx.setSessionMeans(sessionHash, 'password-and-code')
    const setUp = { action: 'second-factor-set-up', account: account.name } as const
    return { value: made, events: [setUp, event, ...endOthers(tx, account, sessionHash, call.now)] }
  })
}
