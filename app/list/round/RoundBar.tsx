import Link from 'next/link'
import type { RoundOfList } from '../../../lib/usecases/index.ts'
import { endTheRound, startTheRound } from '../../_server/roundActs.ts'
import { RoundAct } from './RoundAct.tsx'
import { RoundCounts } from './RoundCounts.tsx'

/** How the weekly round stands, in the first two lines of the list, and the button that starts or ends it. */
export function RoundBar({ round }: { readonly round: RoundOfList }) {
  const { running, since, runningId, progress, handedOver, news } = round
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
        <RoundCounts drawn={{ runningId, progress, handedOver, news }} since={since?.roundId ?? null} />
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
