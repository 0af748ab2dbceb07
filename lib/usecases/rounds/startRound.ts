import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { momentSays } from './momentSays.ts'

/** Starts a round of the review list. One runs at a time for the whole clinic: whoever comes second is told whose and since when. */
export async function startRound(call: Call): Promise<Outcome<{ readonly roundId: number }>> {
  const refused = await refusedUnlessMay(call, 'round.write', 'round')
  if (refused !== null) return refused
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const running = tx.runningRound()
      if (running !== null)
        refuse('invalid', `Round ${running.id} runs already: ${running.startedBy} started it, ${momentSays(running.startedAt)}. End it first.`)
      const roundId = tx.startRound(call.actor.name, call.now)
      return { value: { roundId }, events: [{ action: 'round-started', roundId }] }
    }),
  )
}
