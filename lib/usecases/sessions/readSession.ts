import { type Role, type SignInMeans, sessionOver, TOUCH_MS } from '../../access/index.ts'
import type { Store, StoredSession } from '../../store/index.ts'
import { digestOf } from './token.ts'

export interface OpenSession {
  readonly name: string
  readonly role: Role
  /** SHA-256 of what the browser holds, as the log keeps it. */
  readonly sessionHash: string
  /** What has been shown in it by now. */
  readonly means: SignInMeans
}

/** Carries the transaction back that found the session ended already. */
class EndedAlready extends Error {}

/** Writes down that a session is over, so that a clock set back cannot bring it to life again. */
async function endForGood(store: Store, { id, name }: StoredSession, over: 'idle' | 'too-long', now: Date): Promise<void> {
  const at = now.toISOString()
  const actor = { name, role: 'none', sessionHash: id, address: null, requestId: 'session' } as const
  await store.record({ actor, now: at }, (tx) => {
    if (!tx.endSession(id, at, over)) throw new EndedAlready()
    return { value: null, events: [{ action: 'sessions-ended', account: name, count: 1 }] }
  })
}

/**
 * Whose session this is, as the account is now; null when it has ended, stood idle for 15 minutes, is 12 hours old, or its account was disabled.
 * Its sign of life is written down at most once a minute, and nobody waits for that: when it fails, the session ends sooner.
 */
export async function readSession(store: Store, sessionId: string, { now }: { readonly now: Date }): Promise<OpenSession | null> {
  const session = store.reader.session(digestOf(sessionId))
  if (session === null || session.endedAt !== null || session.disabledAt !== null) return null
  const lastSeen = Date.parse(session.lastSeenAt)
  const over = sessionOver(Date.parse(session.createdAt), lastSeen, now.getTime())
  if (over !== null) {
    await endForGood(store, session, over, now).catch(() => undefined)
    return null
  }
  if (now.getTime() - lastSeen >= TOUCH_MS) void store.touchSession(session.id, now.toISOString()).catch(() => undefined)
  return { name: session.name, role: session.role, sessionHash: session.id, means: session.means }
}
