import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import { momentSays } from './momentSays.ts'

/**
 * Ends the round somebody was shown, and keeps where everybody stood and what was open, so that the next round knows what is new. In one write: the list of
 * that moment is what is kept. A round that ended meanwhile is refused with who ended it.
 */
export async function endRound(call: Call, { roundId }: { readonly roundId: number }): Promise<Outcome<{ readonly roundId: number }>> {
  const refused = await refusedUnlessMay(call, 'round.write', 'round')
  if (refused !== null) return refused
  await renewStandings(call)
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const round = tx.round(roundId) ?? refuse('not-found', `No round has the number ${roundId}.`)
      if (round.endedAt !== null) refuse('invalid', `Round ${roundId} ended already: ${round.endedBy} ended it, ${momentSays(round.endedAt)}.`)
      // A clock set back ends a round no sooner than it started.
      tx.endRound(roundId, call.actor.name, [call.now, round.startedAt].toSorted().at(-1) ?? call.now)
      const ended = tx.round(roundId) ?? round
      const { followed, open } = ended
      return {
        value: { roundId },
        events: [{ action: 'round-ended', roundId, followed: followed ?? 0, open: open ?? 0, after: canonicalSha256(ended) }],
      }
    }),
  )
}
