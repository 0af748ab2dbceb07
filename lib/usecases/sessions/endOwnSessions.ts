import type { StoredSession } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { handleOf } from './openSessions.ts'
import { sessionsOfCaller } from './ownSessions.ts'

type Ended = Outcome<{ readonly endedSessions: number }>

const GONE: Ended = { ok: false, kind: 'not-found', reason: 'This session has ended already, or it is not yours.' }
const THIS_ONE: Ended = { ok: false, kind: 'invalid', reason: 'This is the session you are using. Sign out to end it.' }
const NO_OTHER: Ended = { ok: false, kind: 'not-found', reason: 'There is no other open session of yours.' }

class NothingEnded extends Error {}

/** Ends what `choose` picks of the caller's own sessions, in one write with its entry; with nothing picked, nothing is written. */
async function endChosen(call: Call, choose: (own: readonly StoredSession[]) => readonly StoredSession[], one: boolean): Promise<number> {
  try {
    return await call.store.record(call, (tx) => {
      const [first, ...more] = choose(sessionsOfCaller(tx, call))
      if (first === undefined) throw new NothingEnded()
      const ending = [first, ...more]
      for (const { id } of ending) tx.endSession(id, call.now, 'sign-out')
      const event = { action: 'sessions-ended', account: first.name, count: ending.length, ...(one ? { session: first.id } : {}) } as const
      return { value: ending.length, events: [event] }
    })
  } catch (error) {
    if (error instanceof NothingEnded) return 0
    throw error
  }
}

/** Ends one of a person's own other sessions at once. Somebody else's is not found; the one that asks is refused (`invalid`): that is signing out. */
export async function endOwnSession(call: Call, { handle }: { readonly handle: string }): Promise<Ended> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own sessions')
  if (refused !== null) return refused
  if (call.actor.sessionHash !== null && handleOf({ id: call.actor.sessionHash }) === handle) return THIS_ONE
  const endedSessions = await endChosen(call, (own) => own.filter((session) => handleOf(session) === handle), true)
  return endedSessions === 0 ? GONE : { ok: true, value: { endedSessions } }
}

/** Ends every session of a person but the one that asks. */
export async function endOtherSessions(call: Call): Promise<Ended> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own sessions')
  if (refused !== null) return refused
  const endedSessions = await endChosen(call, (own) => own.filter(({ id }) => id !== call.actor.sessionHash), false)
  return endedSessions === 0 ? NO_OTHER : { ok: true, value: { endedSessions } }
}
