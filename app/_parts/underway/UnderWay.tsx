'use client'

import { useEffect, useSyncExternalStore } from 'react'
import { Progress } from '../Progress.tsx'
import { watchLeaving } from './leaving.ts'
import { type UnderWay as Now, onChange, underWay } from './underWay.ts'
import { useRenewal } from './useRenewal.ts'
import { RENEWED, RENEWING, WAITING_WORDS } from './waitingWords.ts'
import { stopAsking, watchRequests } from './watchRequests.ts'

function wordsFor(now: Now | null): string {
  if (now === null || now.stage === 0) return ''
  return WAITING_WORDS[now.kind][now.stage === 1 ? 0 : 1]
}

/** On every page: that something is on its way, at once as a bar, after a second in words, and how far it is where that is known. */
export function UnderWay() {
  useEffect(() => {
    const stops = [watchRequests(), watchLeaving()]
    return () => {
      for (const stop of stops) stop()
    }
  }, [])
  const now = useSyncExternalStore(onChange, underWay, () => null)
  const renewal = useRenewal(now?.kind === 'loading' && now.stage > 0)
  const says = renewal === null ? wordsFor(now) : RENEWING
  return (
    <div className="under-way no-print">
      {now !== null && <span className="under-way-bar" aria-hidden="true" />}
      <p className={says === '' ? 'sr-only' : 'under-way-says'} role="status">
        {says}
      </p>
      {renewal !== null && (
        <section className="under-way-far" aria-label="How far it is">
          <Progress step={{ says: RENEWED, done: renewal.of - renewal.waiting, of: renewal.of }} />
        </section>
      )}
      {now?.kind === 'gone' && says !== '' && (
        <button className="button button-quiet" type="button" onClick={stopAsking}>
          Stay on this page
        </button>
      )}
    </div>
  )
}
