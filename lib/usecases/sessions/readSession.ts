import { type Role, type SignInMeans, TOUCH_MS } from '../../access/index.ts'
import type { Store } from '../../store/index.ts'
import { holds } from './openSessions.ts'
import { digestOf } from './token.ts'

export interface OpenSession {
  readonly name: string
  readonly role: Role
  /** SHA-256 of what the browser holds, as the log keeps it. */
  readonly sessionHash: string
  /** What has been shown in it by now. */
  readonly means: SignInMeans
}

/**
 * Whose session this is, as the account is now; null when it has ended, stood idle for 15 minutes, is 12 hours old, or its account was disabled.
 * Its sign of life is written down at most once a minute, and nobody waits for that: when it fails, the session ends sooner.
 */
export async function readSession(store: Store, sessionId: string, { now }: { readonly now: Date }): Promise<OpenSession | null> {
  const session = store.reader.session(digestOf(sessionId))
  if (session === null || !holds(session, now.toISOString())) return null
  if (now.getTime() - Date.parse(session.lastSeenAt) >= TOUCH_MS) void store.touchSession(session.id, now.toISOString()).catch(() => undefined)
  return { name: session.name, role: session.role, sessionHash: session.id, means: session.means }
}
