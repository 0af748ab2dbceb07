'use client'

import type { RoundNow } from '../../../lib/usecases/index.ts'
import { useRoundNow } from './useRoundNow.ts'

function newsSays({ news, handedOver, runningId }: RoundNow): string {
  if (news === null) return ''
  const waiting = news.open - news.either
  const handed = runningId === null ? '' : `, ${handedOver} handed over`
  return `${news.isNew} new, ${news.cameBack} came back, ${waiting} waiting${handed}`
}

function countsSay(now: RoundNow): string {
  const { progress } = now
  const parts = [newsSays(now), progress === null ? '' : `${progress.done} of ${progress.of} done`].filter((part) => part !== '')
  return parts.length === 0 ? '' : `${parts.join('; ')}.`
}

function meanwhileSays(drawn: number | null, now: number | null): string {
  if (drawn === now) return ''
  if (drawn === null) return ` Round ${now} was started meanwhile.`
  return ` Round ${drawn} was ended meanwhile${now === null ? '' : ` and round ${now} started`}.`
}

interface Props {
  readonly drawn: RoundNow
  /** The round the list is compared with; null where it is with none. */
  readonly since: number | null
}

/** What is new and how far the round is, kept up while the list is worked through. Not read aloud each time: each answer is told already. */
export function RoundCounts({ drawn, since }: Props) {
  const now = useRoundNow(drawn, since)
  return (
    <p className="round-now">
      {countsSay(now)}
      {meanwhileSays(drawn.runningId, now.runningId)}
    </p>
  )
}
