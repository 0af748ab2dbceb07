'use client'

import { useEffect, useState } from 'react'
import type { RoundNow } from '../../../lib/usecases/index.ts'
import { askJson } from '../../_parts/askJson.ts'

const asked = new EventTarget()

/** Somebody did something to a patient of the list: what it says of the round is asked for anew. */
export function askRoundAnew(): void {
  asked.dispatchEvent(new Event('anew'))
}

const askRoundNow = (since: number | null): Promise<RoundNow | null> => askJson(`/rounds/now${since === null ? '' : `?since=${since}`}`)

/**
 * The counts of the round as they were drawn, or as they are since: asked for after each answer, and when somebody comes back to the page, because others
 * work on the same round. `since` is the round the list is compared with. Where no answer comes, what was known last stays.
 */
export function useRoundNow(drawn: RoundNow, since: number | null): RoundNow {
  const [heard, setHeard] = useState<{ readonly drawn: RoundNow; readonly now: RoundNow } | null>(null)
  useEffect(() => {
    let latest = 0
    const ask = async (): Promise<void> => {
      latest += 1
      const mine = latest
      const now = await askRoundNow(since)
      if (now !== null && mine === latest) setHeard({ drawn, now })
    }
    const anew = () => void ask()
    const back = () => document.visibilityState === 'visible' && anew()
    asked.addEventListener('anew', anew)
    document.addEventListener('visibilitychange', back)
    return () => {
      latest = -1
      asked.removeEventListener('anew', anew)
      document.removeEventListener('visibilitychange', back)
    }
  }, [drawn, since])
  return heard !== null && heard.drawn === drawn ? heard.now : drawn
}
