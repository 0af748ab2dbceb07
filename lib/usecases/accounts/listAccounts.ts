import type { StoredAccount } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { openSessions, sessionView } from '../sessions/openSessions.ts'
import type { AccountView } from '../views.ts'

function stateOf(account: StoredAccount, joined: boolean): AccountView['state'] {
  if (account.disabledAt !== null) return 'disabled'
  return account.passwordHash === null && !joined ? 'waiting for its code' : 'active'
}

/** Every account by name, with its sessions that still hold, the latest first. */
export async function listAccounts(call: Call): Promise<Outcome<readonly AccountView[]>> {
  const refused = await refusedUnlessMay(call, 'accounts.manage', 'accounts')
  if (refused !== null) return refused
  const { reader } = call.store
  const { accounts, sessions, withFactor } = reader.atOnce(() => ({
    accounts: reader.accounts().map((account) => ({ ...account, joined: reader.identityOf(account.id) !== null })),
    sessions: openSessions(reader, call.now),
    withFactor: reader.accountsWithFactor(),
  }))
  const own = call.actor.sessionHash
  const value = accounts.map((account) => ({
    name: account.name,
    role: account.role,
    state: stateOf(account, account.joined),
    joined: account.joined,
    hasSecondFactor: withFactor.has(account.id),
    createdAt: account.createdAt,
    lastSignInAt: account.lastSignInAt,
    sessions: sessions
      .filter(({ accountId }) => accountId === account.id)
      .map((session) => sessionView(session, own))
      .toReversed(),
  }))
  return { ok: true, value }
}
