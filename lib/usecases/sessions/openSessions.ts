import { LONGEST_MS, sessionOver } from '../../access/index.ts'
import type { Reader, StoredSession } from '../../store/index.ts'
import { digestOf } from './token.ts'

/** An open session as a page shows it. Times are UTC, ISO 8601. */
export interface SessionView {
  /** Names the session to this server and opens nothing: it is made from a hash of what the browser holds. */
  readonly handle: string
  readonly since: string
  readonly lastSeenAt: string
  readonly address: string | null
  /** Whether it is the one that asks. */
  readonly isThis: boolean
}

/** What a page may know a session by: 64 bits of a digest of the stored id, which is a digest itself. */
export function handleOf(session: Pick<StoredSession, 'id'>): string {
  return digestOf(`handle of ${session.id}`).slice(0, 16)
}

/** Does the stored session still hold at `now` (UTC, ISO 8601)? */
export function holds(session: StoredSession, now: string): boolean {
  if (session.endedAt !== null || session.disabledAt !== null) return false
  return sessionOver(Date.parse(session.createdAt), Date.parse(session.lastSeenAt), Date.parse(now)) === null
}

/** Every session that holds at `now`, by account, oldest first. */
export function openSessions(reader: Pick<Reader, 'openSessions'>, now: string): readonly StoredSession[] {
  const since = new Date(Date.parse(now) - LONGEST_MS).toISOString()
  return reader.openSessions(since).filter((session) => holds(session, now))
}

/** A session as shown to whoever asks in the session `own`. */
export function sessionView(session: StoredSession, own: string | null): SessionView {
  const { id, createdAt, lastSeenAt, address } = session
  return { handle: handleOf(session), since: createdAt, lastSeenAt, address, isThis: id === own }
}
