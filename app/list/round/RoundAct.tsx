'use client'

import { Said } from '../../_parts/Said.tsx'
import { type FormAct, useKeptForm } from '../../_parts/useKeptForm.ts'

interface Props {
  readonly act: FormAct<{ readonly roundId: number }>
  /** The round to end; null starts one. */
  readonly roundId: number | null
}

/**
 * The one button of a round: it starts one, or ends the one that runs. It stays the same part when the round beside it changes, so that whoever came second
 * is still told after the page was drawn again.
 */
export function RoundAct({ act, roundId }: Props) {
  const { outcome, send, busy } = useKeptForm(act)
  const says = roundId === null ? 'Start a round' : `End round ${roundId}`
  return (
    <form className="no-print" action={send} aria-label={says}>
      {roundId !== null && <input type="hidden" name="roundId" value={roundId} />}
      <button className="button" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
        {says}
        <span className={busy ? 'pending' : ''} />
      </button>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </form>
  )
}
