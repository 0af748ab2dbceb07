'use client'

import { useId } from 'react'
import { Said } from '../../_parts/Said.tsx'
import { Told } from '../../_parts/Told.tsx'
import { type FormAct, useKeptForm } from '../../_parts/useKeptForm.ts'
import { QUESTION_WORDS } from '../questionWords.ts'

interface Props {
  readonly record: FormAct<{ readonly sentence: string }>
  /** The oldest days nobody reviewed. */
  readonly from: string
  readonly to: string
  readonly lastDay: string
}

/** Records that a period of the log was reviewed, and at what whoever did it looked. */
export function ReviewForm({ record, from, to, lastDay }: Props) {
  const form = useKeptForm(record)
  const { outcome, busy } = form
  const id = useId()
  return (
    <section className="panel" aria-labelledby={`${id}-head`}>
      <h2 id={`${id}-head`}>Record a review</h2>
      <Told outcome={outcome}>{outcome?.ok && outcome.value.sentence}</Told>
      <form key={`${from} ${to}`} action={form.send} aria-label="Record a review">
        <div className="filters">
          <div className="field">
            <label htmlFor={`${id}-from`}>From</label>
            <input className="input" id={`${id}-from`} name="from" type="date" required max={lastDay} defaultValue={form.typed('from', from)} />
          </div>
          <div className="field">
            <label htmlFor={`${id}-to`}>To</label>
            <input className="input" id={`${id}-to`} name="to" type="date" required max={lastDay} defaultValue={form.typed('to', to)} />
          </div>
        </div>
        <fieldset className="field">
          <legend className="label">What you looked at</legend>
          {Object.entries(QUESTION_WORDS).map(([question, says]) => (
            <label key={question}>
              <input type="checkbox" name={question} defaultChecked={form.typed(question) === 'on'} /> {says}
            </label>
          ))}
        </fieldset>
        <div className="field">
          <label htmlFor={`${id}-note`}>Note (kept; may be left empty; no names of patients)</label>
          <input className="input" id={`${id}-note`} name="note" maxLength={500} autoComplete="off" defaultValue={form.typed('note')} />
        </div>
        <noscript>
          <p>Sending this needs JavaScript.</p>
        </noscript>
        {outcome?.ok === false && <Said outcome={outcome} />}
        <button className="button" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
          Record it
          <span className={busy ? 'pending' : ''} />
        </button>
      </form>
    </section>
  )
}
