import { signInWaitSeconds } from '../../access/index.ts'
import type { StoredAccount, Tx } from '../../store/index.ts'

/** Must the next try on this account still wait at `now` (UTC, ISO 8601)? */
export function mustWait(account: StoredAccount, now: string): boolean {
  return account.waitUntil !== null && account.waitUntil > now
}

/** Counts a failed try and sets the wait it earns. A try during a wait counts nothing, so that nobody can lengthen another person's wait at will. */
export function countFailedTry(tx: Tx, account: StoredAccount, now: string): void {
  if (mustWait(account, now)) return
  const failures = account.failures + 1
  const seconds = signInWaitSeconds(failures)
  tx.setFailures(account.id, failures, seconds === 0 ? null : new Date(Date.parse(now) + seconds * 1000).toISOString())
}
