'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef } from 'react'
import { Progress } from '../Progress.tsx'
import { Said } from '../Said.tsx'
import type { AskedFields } from './address.ts'
import { useWork } from './useWork.ts'

interface Props {
  readonly asked: AskedFields
  /** What was asked for is not worked out yet: begins by itself. Else it is worked out again when somebody says so. */
  readonly begins: boolean
}

/** Works the audit out in a process apart, shows how far that is, and then the page with it. */
export function WorkOut({ asked, begins }: Props) {
  const { step, outcome, run } = useWork<unknown>('/follow-up/work')
  const { refresh } = useRouter()
  const begun = useRef(false)
  const work = useCallback(async () => {
    if ((await run({ ...asked })).ok) refresh()
  }, [asked, run, refresh])
  useEffect(() => {
    if (!begins || begun.current) return
    begun.current = true
    void work()
  }, [begins, work])
  return (
    <div className="followup-work no-print">
      <div role="status">{step !== null && <Progress step={step} />}</div>
      {outcome?.ok === false && <Said outcome={outcome} />}
      {step === null && (!begins || outcome !== null) && (
        <button className="button button-quiet" type="button" onClick={() => void work()}>
          {outcome?.ok === false ? 'Try again' : 'Work out again'}
        </button>
      )}
      <noscript>
        <p>Working the audit out needs JavaScript.</p>
      </noscript>
    </div>
  )
}
