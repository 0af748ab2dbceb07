import type { Role } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { freshCode, type OneTimeCode } from './oneTimeCode.ts'

const LONGEST_NAME = 100

function nameProblem(name: string): string | null {
  if (name === '') return 'The account has no name.'
  if ([...name].length > LONGEST_NAME) return `The name is longer than ${LONGEST_NAME} characters.`
  return /[\p{Cc}\p{Cf}]/u.test(name) ? 'The name contains a character that cannot be seen.' : null
}

/**
 * Adds an account that waits for its one-time code, good for 72 hours. For an account whose code was never used a new code takes the place of the
 * old one, provided the role is the same; a name that is in use otherwise is refused.
 */
export async function addAccount(call: Call, given: { readonly name: string; readonly role: Role }): Promise<Outcome<OneTimeCode>> {
  const refused = await refusedUnlessMay(call, 'accounts.manage', 'accounts')
  if (refused !== null) return refused
  const name = given.name.normalize('NFKC').trim()
  const { role } = given
  const problem = nameProblem(name)
  if (problem !== null) return { ok: false, kind: 'invalid', reason: problem }
  const { shown, secret } = freshCode(call.now)
  const existing = call.store.reader.account(name)
  const used = existing !== null && (existing.passwordHash !== null || call.store.reader.identityOf(existing.id) !== null)
  if (existing !== null && (used || existing.disabledAt !== null || existing.role !== role)) {
    return { ok: false, kind: 'invalid', reason: `There is an account named ${existing.name} already.` }
  }
  return call.store.record(call, (tx) => {
    // Another program may have added it a moment ago; the unique name then refuses, and nothing is changed.
    if (existing === null) tx.insertAccount({ name, role, createdAt: call.now, ...secret })
    else tx.setCode(existing.id, secret)
    return { value: { ok: true, value: shown }, events: [{ action: 'account-added', account: existing?.name ?? name, role }] }
  })
}
