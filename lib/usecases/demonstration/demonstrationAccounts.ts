import { randomBytes } from 'node:crypto'
import { ROLES, type Role } from '../../access/index.ts'
import { activate } from '../accounts/activate.ts'
import { addAccount } from '../accounts/addAccount.ts'
import type { Call, Outcome } from '../call.ts'
import { DEMONSTRATION_NAMES } from './demonstrationNames.ts'
import { isDemonstration } from './fillDemonstration.ts'

export interface SignIn {
  readonly role: Role
  readonly name: string
  readonly password: string
}

/** One account a role with a random password, on a demonstration database only. The passwords are in the answer and nowhere else. */
export async function demonstrationAccounts(call: Call): Promise<Outcome<readonly SignIn[]>> {
  if (!isDemonstration(call.store)) return { ok: false, kind: 'not-allowed', reason: 'Demonstration accounts belong to a demonstration database.' }
  const made: SignIn[] = []
  for (const role of ROLES) {
    const name = DEMONSTRATION_NAMES[role]
    const password = randomBytes(15).toString('base64url')
    const added = await addAccount(call, { name, role })
    if (!added.ok) return added
    const activated = await activate(call, { name, code: added.value.code, password })
    if (!activated.ok) return activated
    made.push({ role, name, password })
  }
  return { ok: true, value: made }
}
