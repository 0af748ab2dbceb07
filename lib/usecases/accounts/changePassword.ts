import { isShortPassword } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { hasFactor } from '../secondFactor/hasFactor.ts'
import { hashPassword } from '../sessions/passwordHash.ts'
import type { Shown } from '../sessions/proof.ts'
import { changeOwn } from './changeOwn.ts'
import { endOthers } from './endOthers.ts'
import { choiceProblem } from './triedFirst.ts'

/** Another password for the own account, with the current one, and a code where a second factor is set up. The account's other sessions end. */
export async function changePassword(call: Call, { chosen, ...shown }: Shown & { readonly chosen: string }): Promise<Outcome<null>> {
  const { reader } = call.store
  const account = reader.account(call.actor.name)
  const withFactor = account !== null && hasFactor(reader, account.id)
  const problem = await choiceProblem(chosen, call.actor.name, withFactor ? 'with-second-factor' : 'alone')
  if (problem !== null) return { ok: false, kind: 'invalid', reason: problem }
  const passwordHash = await hashPassword(chosen)
  return changeOwn(call, shown, (tx, { account: own, means }, sessionHash) => {
    // The second factor may have been taken away while the password was hashed.
    if (isShortPassword(chosen) && !hasFactor(tx, own.id)) {
      return { ok: false, kind: 'invalid', reason: 'Your second factor is gone, so the password needs more characters. Load the page again.' }
    }
    tx.setPassword(own.id, passwordHash)
    if (means === 'short-password') tx.setSessionMeans(sessionHash, 'password')
    return { value: null, events: [{ action: 'password-changed', account: own.name }, ...endOthers(tx, own, sessionHash, call.now)] }
  })
}
