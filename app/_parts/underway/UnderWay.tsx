'use client'

import { useEffect, useSyncExternalStore } from 'react'
import { watchLeaving } from './leaving.ts'
import { type Kind, type UnderWay as Now, onChange, underWay } from './underWay.ts'
import { stopAsking, watchRequests } from './watchRequests.ts'

/** After a second, and where it takes longer than it should. A bar alone says only that something is on its way. */
export const WAITING_WORDS: Readonly<Record<Kind, readonly [string, string]>> = {
  loading: ['Still loading.', 'Still loading. It takes longer than it should; nothing is lost by waiting.'],
  sending: ['Still waiting for the answer. Leave this page open.', 'Still waiting for the answer. Leave this page open; what you typed stays here.'],
  gone: [
    'Lowmark does not answer. This page stays as it is, and the next one is asked for every few seconds.',
    'Lowmark still does not answer. This page stays as it is. Tell the administrator if it goes on.',
  ],
  file: ['The file is being made. Your browser says when it is here.', 'The file is being made. Your browser says when it is here.'],
}

function wordsFor(now: Now | null): string {
  if (now === null || now.stage === 0) return ''
  return WAITING_WORDS[now.kind][now.stage === 1 ? 0 : 1]
}

/** On every page: that something is on its way, at once as a bar, after a second in words. */
export function UnderWay() {
  useEffect(() => {
    const stops = [watchRequests(), watchLeaving()]
    return () => {
      for (const stop of stops) stop()
    }
  }, [])
  const now = useSyncExternalStore(onChange, underWay, () => null)
  const says = wordsFor(now)
  return (
    <div className="under-way no-print">
      {now !== null && <span className="under-way-bar" aria-hidden="true" />}
      <p className={says === '' ? 'sr-only' : 'under-way-says'} role="status">
        {says}
      </p>
      {now?.kind === 'gone' && says !== '' && (
        <button className="button button-quiet" type="button" onClick={stopAsking}>
          Stay on this page
        </button>
      )}
    </div>
  )
}
