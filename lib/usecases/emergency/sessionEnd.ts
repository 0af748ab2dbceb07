import { sessionEndsAt } from '../../access/index.ts'
import type { Reader, StoredEmergency } from '../../store/index.ts'

/**
 * When the session of a view ended (UTC, ISO 8601); null while it holds, and where no row tells of it. That one stood idle is written down when somebody
 * asks for it, which may be late or never: its limits tell it.
 */
export function sessionEnd(reader: Pick<Reader, 'session'>, { sessionHash, fromAt }: StoredEmergency, now: string): string | null {
  const session = reader.session(sessionHash)
  if (session === null) return null
  const byItself = new Date(sessionEndsAt(Date.parse(session.createdAt), Date.parse(session.lastSeenAt))).toISOString()
  const at = session.endedAt !== null && session.endedAt < byItself ? session.endedAt : byItself
  if (session.endedAt === null && now < at) return null
  return at < fromAt ? fromAt : at
}
