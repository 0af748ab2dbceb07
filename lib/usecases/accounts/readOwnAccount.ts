import { type Confinement, confinementOf, LEAST_CHARACTERS, type Role } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { factorPolicy } from '../secondFactor/policy.ts'
import { unseal } from '../secondFactor/seal.ts'
import { factorOf } from '../secondFactor/shownCode.ts'
import { NO_OWN_ACCOUNT, sessionOf } from './changeOwn.ts'

/** The own account, as its page shows it. */
export interface OwnAccountView {
  readonly name: string
  readonly role: Role
  /** False for an account that signs in by the clinic's own sign-in only. */
  readonly hasPassword: boolean
  readonly leastCharacters: number
  readonly secondFactor: {
    readonly isOn: boolean
    /** UTC, ISO 8601; null where it is off. */
    readonly since: string | null
    /** False where its secret was sealed before the server's secret changed: then no code of it counts, and recovery codes do. */
    readonly isReadable: boolean
    readonly isRequired: boolean
    readonly codesLeft: number
  }
  /** What has to be done before anything else is open. */
  readonly confinement: Confinement | null
}

/** What the page "Your account" shows. */
export async function readOwnAccount(call: Call): Promise<Outcome<OwnAccountView>> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own account')
  if (refused !== null) return refused
  const own = sessionOf(call)
  const { reader } = call.store
  const session = own === null ? null : reader.session(own.sessionHash)
  const account = session === null ? null : reader.account(session.name)
  if (session === null || account === null) return NO_OWN_ACCOUNT
  const factor = reader.secondFactor(account.id)
  const sealed = factor?.sealed ?? null
  const policy = factorPolicy()
  const secondFactor = {
    isOn: sealed !== null,
    since: sealed === null ? null : (factor?.changedAt ?? null),
    isReadable: sealed === null || unseal(sealed, factorOf(account.id)) !== null,
    isRequired: policy === 'required',
    codesLeft: reader.recoveryCodesLeft(account.id),
  }
  const leastCharacters = LEAST_CHARACTERS[secondFactor.isOn ? 'with-second-factor' : 'alone']
  const { name, role } = account
  const confinement = confinementOf(session.means, policy)
  return { ok: true, value: { name, role, hasPassword: account.passwordHash !== null, leastCharacters, secondFactor, confinement } }
}
