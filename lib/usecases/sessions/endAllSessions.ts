import type { EndedBecause, Tx } from '../../store/index.ts'
import { openSessions } from './openSessions.ts'

/** Ends everything an account is signed in by. Counts what held until now: a session that had run out by itself was not ended by anybody. */
export function endAllSessions(tx: Tx, accountId: number, now: string, because: EndedBecause): number {
  const held = openSessions(tx, now).filter((session) => session.accountId === accountId).length
  tx.endSessionsOf(accountId, now, because)
  return held
}
