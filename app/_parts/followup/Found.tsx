import { type ReactNode, useEffect, useRef } from 'react'
import { Progress } from '../Progress.tsx'
import { Said } from '../Said.tsx'
import { useWork } from './useWork.ts'

interface Props<T> {
  /** Where it is asked for. */
  readonly at: string
  /** The fields it is asked with. */
  readonly asked: Readonly<Record<string, string>>
  /** What is told where no scripts run. */
  readonly says: string
  readonly children: (view: T) => ReactNode
}

/** What stands behind a figure of the audit, found in a process apart; whose it is is in the log before it is shown. */
export function Found<T>({ at, asked, says, children }: Props<T>) {
  const { step, outcome, run } = useWork<T>(at)
  const begun = useRef(false)
  useEffect(() => {
    if (begun.current) return
    begun.current = true
    void run(asked)
  }, [asked, run])
  return (
    <div className="followup-tests">
      <div role="status">{step !== null && <Progress step={step} />}</div>
      {outcome?.ok === false && (
        <>
          <Said outcome={outcome} />
          <button className="button button-quiet" type="button" onClick={() => void run(asked)}>
            Try again
          </button>
        </>
      )}
      {outcome?.ok && children(outcome.value)}
      <noscript>
        <p>{says}</p>
      </noscript>
    </div>
  )
}
