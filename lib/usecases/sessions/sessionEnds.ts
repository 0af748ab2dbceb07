import { type Role, sessionLeft, TOUCH_MS } from '../../access/index.ts'
import type { Store, StoredSession } from '../../store/index.ts'
import { holds } from './openSessions.ts'
import { digestOf } from './token.ts'

/** Whose session it is, and for how much longer it holds (milliseconds): without a further sign of life, and at the longest. */
export interface SessionEnds {
  readonly name: string
  readonly role: Role
  readonly idleMs: number
  readonly longestMs: number
}

function openRow(store: Store, sessionId: string, now: Date): StoredSession | null {
  const session = store.reader.session(digestOf(sessionId))
  return session !== null && holds(session, now.toISOString()) ? session : null
}

function endsOf({ name, role, createdAt, lastSeenAt }: StoredSession, now: Date): SessionEnds {
  return { name, role, ...sessionLeft(Date.parse(createdAt), Date.parse(lastSeenAt), now.getTime()) }
}

/** When the session ends. Asking is no sign of life: a page that is merely open asks too. Null where it has ended. */
export function sessionEnds(store: Store, sessionId: string, { now }: { readonly now: Date }): SessionEnds | null {
  const session = openRow(store, sessionId, now)
  return session === null ? null : endsOf(session, now)
}

/** A person's sign of life, written down before it is answered, at most once a minute; and when the session ends then. Null where it has ended. */
export async function signOfLife(store: Store, sessionId: string, { now }: { readonly now: Date }): Promise<SessionEnds | null> {
  const session = openRow(store, sessionId, now)
  if (session === null) return null
  if (now.getTime() - Date.parse(session.lastSeenAt) >= TOUCH_MS) await store.touchSession(session.id, now.toISOString())
  return sessionEnds(store, sessionId, { now })
}
