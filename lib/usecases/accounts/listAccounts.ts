import { sessionOver } from '../../access/index.ts'
import type { StoredAccount, StoredSession } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { AccountView } from '../views.ts'

function stateOf(account: StoredAccount, joined: boolean): AccountView['state'] {
  if (account.disabledAt !== null) return 'disabled'
  return account.passwordHash === null && !joined ? 'waiting for its code' : 'active'
}

function holds(session: StoredSession, nowMs: number): boolean {
  return sessionOver(Date.parse(session.createdAt), Date.parse(session.lastSeenAt), nowMs) === null
}

/** Every account by name, with how many of its sessions still hold. */
export async function listAccounts(call: Call): Promise<Outcome<readonly AccountView[]>> {
  const refused = await refusedUnlessMay(call, 'accounts.manage', 'accounts')
  if (refused !== null) return refused
  const { reader } = call.store
  const { accounts, sessions } = reader.atOnce(() => ({
    accounts: reader.accounts().map((account) => ({ ...account, joined: reader.identityOf(account.id) !== null })),
    sessions: reader.openSessions(),
  }))
  const nowMs = Date.parse(call.now)
  const value = accounts.map((account) => ({
    name: account.name,
    role: account.role,
    state: stateOf(account, account.joined),
    joined: account.joined,
    createdAt: account.createdAt,
    lastSignInAt: account.lastSignInAt,
    openSessions: sessions.filter((session) => session.accountId === account.id && holds(session, nowMs)).length,
  }))
  return { ok: true, value }
}
