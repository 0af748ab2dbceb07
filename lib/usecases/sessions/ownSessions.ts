import type { StoredSession } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { openSessions, type SessionView, sessionView } from './openSessions.ts'

/** The open sessions of the account whose session asks; none at the console, which has no session. */
export function sessionsOfCaller(reader: Parameters<typeof openSessions>[0], { actor, now }: Call): readonly StoredSession[] {
  const open = openSessions(reader, now)
  const own = open.find(({ id }) => id === actor.sessionHash)
  return own === undefined ? [] : open.filter(({ accountId }) => accountId === own.accountId)
}

/** A person's own open sessions, the latest first. */
export async function ownSessions(call: Call): Promise<Outcome<readonly SessionView[]>> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own sessions')
  if (refused !== null) return refused
  const value = sessionsOfCaller(call.store.reader, call).map((session) => sessionView(session, call.actor.sessionHash))
  return { ok: true, value: value.toReversed() }
}
