import { timingSafeEqual } from 'node:crypto'
import type { StoredAccount } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { endAllSessions } from '../sessions/endAllSessions.ts'
import { countFailedTry, mustWait } from '../sessions/failedTry.ts'
import { hashPassword } from '../sessions/passwordHash.ts'
import { digestOf, plainCode } from '../sessions/token.ts'
import { isGoodCode } from './oneTimeCode.ts'
import { choiceProblem } from './triedFirst.ts'

export const CODE_REFUSED =
  'The name or the code is not right, the code is older than 72 hours or was used, or there were too many tries: then wait a while.'

/** Is this the account's one-time code, and does it count at `now` (UTC, ISO 8601)? Compared in constant time. */
export function isCode(account: StoredAccount | null, typed: string, now: string): account is StoredAccount {
  const typedHash = Buffer.from(digestOf(plainCode(typed)))
  const matches = timingSafeEqual(typedHash, Buffer.from(account?.codeHash ?? digestOf('')))
  if (account === null || account.codeHash === null || account.codeExpiresAt === null || account.disabledAt !== null) return false
  return matches && isGoodCode(account.codeExpiresAt, now) && !mustWait(account, now)
}

/**
 * A person's first password, chosen with the one-time code. What is wrong with the password is said (`invalid`); what is wrong with name or code is
 * not told apart (`not-allowed`). The code is used up, and what was signed in with an earlier password ends.
 */
export async function activate(
  call: Call,
  given: { readonly name: string; readonly code: string; readonly password: string },
): Promise<Outcome<null>> {
  const name = given.name.normalize('NFKC').trim()
  // Always as long as without a second factor: whether there is one is told to nobody who is not signed in.
  const problem = await choiceProblem(given.password, name, 'alone')
  if (problem !== null) return { ok: false, kind: 'invalid', reason: problem }
  const passwordHash = await hashPassword(given.password)
  const known = call.store.reader.account(name)
  const actor = { ...call.actor, name: known?.name ?? '(unknown name)' }
  return call.store.record<Outcome<null>>({ actor, now: call.now }, (tx) => {
    const account = tx.account(name)
    if (!isCode(account, given.code, call.now)) {
      countFailedTry(tx, account, { at: call.now, address: call.actor.address })
      return { value: { ok: false, kind: 'not-allowed', reason: CODE_REFUSED }, events: [{ action: 'sign-in', outcome: 'failure' }] }
    }
    tx.setPassword(account.id, passwordHash)
    const count = endAllSessions(tx, account.id, call.now, 'sign-out')
    const ended = { action: 'sessions-ended', account: account.name, count } as const
    return { value: { ok: true, value: null }, events: [{ action: 'account-activated', account: account.name }, ...(count === 0 ? [] : [ended])] }
  })
}
