import { ADDRESS_WINDOW_MS, LONGEST_WAIT_SECONDS, MOST_FAILURES_OF_ADDRESS, signInWaitSeconds } from '../../access/index.ts'
import type { Reader, StoredAccount, Tx } from '../../store/index.ts'

/** When and from where something was tried; the address is null where the connection told none. */
export interface TriedFrom {
  /** UTC, ISO 8601. */
  readonly at: string
  readonly address: string | null
}

/** Must the next try on this account still wait at `now` (UTC, ISO 8601)? A wait longer than any there is comes from a clock that was set back: none. */
export function mustWait(account: StoredAccount, now: string): boolean {
  if (account.waitUntil === null) return false
  const left = Date.parse(account.waitUntil) - Date.parse(now)
  return left > 0 && left <= LONGEST_WAIT_SECONDS * 1000
}

function windowBegan(at: string): string {
  return new Date(Date.parse(at) - ADDRESS_WINDOW_MS).toISOString()
}

/** Did so many tries from this address fail lately that a password alone signs nobody in from there? */
export function addressMustWait(reader: Reader, { at, address }: TriedFrom): boolean {
  return address !== null && reader.failuresOfAddress(address, windowBegan(at)) >= MOST_FAILURES_OF_ADDRESS
}

/**
 * Counts a failed try for its address, and for the account, where there is one, with the wait it earns. During the wait of either it counts nothing
 * there, so that nobody can lengthen another person's wait at will.
 */
export function countFailedTry(tx: Tx, account: StoredAccount | null, tried: TriedFrom): void {
  const { at, address } = tried
  if (address !== null && address !== '' && !addressMustWait(tx, tried)) tx.insertFailedTry(address, at, windowBegan(at))
  if (account === null || mustWait(account, at)) return
  const failures = account.failures + 1
  const seconds = signInWaitSeconds(failures)
  tx.setFailures(account.id, failures, seconds === 0 ? null : new Date(Date.parse(at) + seconds * 1000).toISOString())
}
