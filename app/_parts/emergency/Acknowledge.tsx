'use client'

import { useId } from 'react'
import type { EmergencyView } from '../../../lib/usecases/index.ts'
import { EmptySentence } from '../EmptySentence.tsx'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, type KeptForm, useKeptForm } from '../useKeptForm.ts'
import { ViewFacts } from './ViewFacts.tsx'

type Sent = KeptForm<{ readonly sentence: string }>

function Form({ emergencyId, form }: { readonly emergencyId: number; readonly form: Sent }) {
  const id = useId()
  const isThis = form.form?.get('emergencyId') === String(emergencyId)
  return (
    <form className="no-print" action={form.send} aria-label={`Acknowledge emergency view ${emergencyId}`}>
      <input type="hidden" name="emergencyId" value={emergencyId} />
      <div className="field">
        <label htmlFor={id}>Note (kept; may be left empty)</label>
        <input className="input" id={id} name="note" maxLength={500} autoComplete="off" defaultValue={isThis ? form.typed('note') : ''} />
      </div>
      {isThis && form.outcome?.ok === false && <Said outcome={form.outcome} />}
      <button className="button" type="submit" aria-disabled={form.busy} onClick={(event) => form.busy && event.preventDefault()}>
        Acknowledge
        <span className={form.busy && isThis ? 'pending' : ''} />
      </button>
    </form>
  )
}

interface Props {
  readonly views: readonly EmergencyView[]
  readonly acknowledge: FormAct<{ readonly sentence: string }>
}

/** Emergency views nobody acknowledged. The answer stands above them: the view it is about is gone by then. */
export function Acknowledge({ views, acknowledge }: Props) {
  const form = useKeptForm(acknowledge)
  return (
    <>
      <Told outcome={form.outcome}>{form.outcome?.ok && form.outcome.value.sentence}</Told>
      {views.length === 0 && <EmptySentence says="None waits." next="A view comes here once it has ended." />}
      <ul className="held">
        {views.map((view) => (
          <li key={view.emergencyId}>
            <article className="held-row" aria-labelledby={`view-${view.emergencyId}`}>
              <ViewFacts view={view} />
              {view.own ? (
                <p className="notice">You opened this view; somebody else has to acknowledge it.</p>
              ) : view.state === 'runs' ? (
                <p className="notice">It still runs. It can be acknowledged once it has ended.</p>
              ) : (
                <Form emergencyId={view.emergencyId} form={form} />
              )}
            </article>
          </li>
        ))}
      </ul>
    </>
  )
}
