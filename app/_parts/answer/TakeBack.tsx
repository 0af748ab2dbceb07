'use client'

import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly act: FormAct<unknown>
  readonly patientId: string
  /** The number of the answer; null where there is none to take back. */
  readonly decisionId: number | null
  readonly title: string
}

/** Takes the last answer to a finding back, with one button; what came of it stands where the button was. */
export function TakeBack({ act, patientId, decisionId, title }: Props) {
  const form = useKeptForm(act)
  return (
    <>
      {decisionId !== null && (
        <form className="take-back no-print" action={form.send} aria-label={`Take the answer back: ${title}`}>
          <input type="hidden" name="patientId" value={patientId} />
          <input type="hidden" name="decisionIds" value={decisionId} />
          <button className="button button-quiet" type="submit" aria-disabled={form.busy} onClick={(event) => form.busy && event.preventDefault()}>
            Take the answer back
            <span className="sr-only">: {title}</span>
            <span className={form.busy ? 'pending' : ''} />
          </button>
        </form>
      )}
      {form.outcome?.ok === false && <Said outcome={form.outcome} />}
      <Told outcome={form.outcome}>Taken back. The finding stands as it did before; both stay on record.</Told>
    </>
  )
}
