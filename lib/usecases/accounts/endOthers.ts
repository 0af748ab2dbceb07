import type { StoredAccount, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'

/** Ends every session of an account but the own one, as its person's doing, and answers the entry for it. */
export function endOthers(tx: Tx, { id, name }: StoredAccount, sessionHash: string, at: string): TrailEvent[] {
  const count = tx.endOtherSessions(id, sessionHash, at, 'sign-out')
  return count === 0 ? [] : [{ action: 'sessions-ended', account: name, count }]
}
