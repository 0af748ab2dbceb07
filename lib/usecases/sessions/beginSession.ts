import type { StoredAccount, Tx } from '../../store/index.ts'
import { digestOf, randomToken } from './token.ts'

/**
 * Opens a session of somebody the identity provider vouched for, and returns what the browser is to hold and what the database keeps of it.
 * Failed tries of the password and their wait stay: they are of another way in, and must not be forgotten with each day's single sign-on.
 */
export function beginSession(tx: Tx, account: StoredAccount, at: string, address: string | null): { sessionId: string; id: string } {
  const sessionId = randomToken()
  const id = digestOf(sessionId)
  tx.insertSession({ id, accountId: account.id, at, address, means: 'provider' })
  tx.setFailures(account.id, account.failures, account.waitUntil)
  return { sessionId, id }
}
