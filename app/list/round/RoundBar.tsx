import Link from 'next/link'
import type { RoundOfList } from '../../../lib/usecases/index.ts'
import { endTheRound, startTheRound } from '../../_server/roundActs.ts'
import { RoundAct } from './RoundAct.tsx'

function newsSays({ news, handedOver, running }: RoundOfList): string {
  if (news === null) return ''
  const waiting = news.open - news.either
  const handed = running === null ? '' : `, ${handedOver} handed over`
  return `${news.isNew} new, ${news.cameBack} came back, ${waiting} waiting${handed}`
}

/** How the weekly round stands, in the first two lines of the list, and the button that starts or ends it. */
export function RoundBar({ round }: { readonly round: RoundOfList }) {
  const { running, since, progress } = round
  const parts = [newsSays(round), progress === null ? '' : `${progress.done} of ${progress.of} done`].filter((part) => part !== '')
  return (
    <section className="round" aria-labelledby="round-head">
      <div>
        <h2 id="round-head">
          {running === null ? (
            'No round is running'
          ) : (
            <>
              Round {running.roundId} started {running.started} by <bdi>{running.startedBy}</bdi>
            </>
          )}
        </h2>
        <p className="round-now">{parts.length > 0 && `${parts.join('; ')}.`}</p>
        <p className="soft small">
          {since === null ? (
            'No round has ended yet, so nothing can be called new. From the end of the first one on, this line says what is.'
          ) : (
            <>
              Compared with the end of{' '}
              <Link href={`/rounds/${since.roundId}`} prefetch={false}>
                round {since.roundId}
              </Link>
              , {since.ended}. Who came back counts as new too, unless it stood open then.
            </>
          )}
        </p>
      </div>
      <div className="round-acts no-print">
        <RoundAct act={running === null ? startTheRound : endTheRound} roundId={running?.roundId ?? null} />
        {running !== null && (
          <Link href={`/rounds/${running.roundId}`} prefetch={false}>
            Summary so far
          </Link>
        )}
      </div>
    </section>
  )
}
