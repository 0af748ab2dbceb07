'use client'

import { type SubmitEvent, startTransition, useId, useState } from 'react'
import type { LogAnswer, LogQuestion } from '../../lib/usecases/index.ts'
import { Said } from '../_parts/Said.tsx'
import { type FormAct, useKeptForm } from '../_parts/useKeptForm.ts'
import { counted } from '../_parts/words.ts'
import { Failures } from './Failures.tsx'
import { LogRows } from './LogRows.tsx'
import { QUESTION_WORDS } from './questionWords.ts'
import { Select } from './Select.tsx'

interface Props {
  readonly ask: FormAct<LogAnswer>
  readonly people: readonly string[]
  readonly actions: readonly string[]
  /** What a patient is named by to whoever asks. */
  readonly patientBy: string
}

type Question = LogQuestion['question']

/** Asks the log one of its questions; the answer stands below. Nothing of the question is in the address. */
export function AskLog({ ask, people, actions, patientBy }: Props) {
  const { outcome, form, busy, send } = useKeptForm(ask)
  const [question, setQuestion] = useState<Question>('every-entry')
  const id = useId()
  function again(before: number | null): void {
    if (busy || form === null) return
    const asked = new FormData()
    for (const [name, value] of form) if (name !== 'before') asked.set(name, value)
    if (before !== null) asked.set('before', String(before))
    startTransition(() => send(asked))
  }
  // Not as the form's action: that would empty the fields once it has answered.
  function submit(event: SubmitEvent<HTMLFormElement>): void {
    event.preventDefault()
    const asked = new FormData(event.currentTarget)
    if (!busy) startTransition(() => send(asked))
  }
  const hidden = (name: string, isAsked: boolean) => !isAsked && <input type="hidden" name={name} value="" />
  const aboutPatient = question === 'who-opened'
  return (
    <section aria-labelledby={`${id}-ask`}>
      <h2 id={`${id}-ask`}>Ask the log</h2>
      <form className="filters no-print" method="post" onSubmit={submit} aria-label="Ask the log">
        <div className="field">
          <label htmlFor={`${id}-question`}>Question</label>
          <select
            className="input"
            id={`${id}-question`}
            name="question"
            value={question}
            onChange={(event) => setQuestion(event.target.value as Question)}
          >
            {Object.entries(QUESTION_WORDS).map(([key, says]) => (
              <option key={key} value={key}>
                {says}
              </option>
            ))}
          </select>
        </div>
        {hidden('patient', aboutPatient)}
        {aboutPatient && (
          <div className="field">
            <label htmlFor={`${id}-patient`}>{patientBy}</label>
            <input className="input" id={`${id}-patient`} name="patient" required maxLength={500} autoComplete="off" spellCheck={false} />
          </div>
        )}
        <Select says="Person" name="person" none={question === 'what-opened' ? null : 'everybody'} options={people} />
        {hidden('only', question === 'every-entry')}
        {question === 'every-entry' && <Select says="Action" name="only" none="every action" options={actions} />}
        <div className="field">
          <label htmlFor={`${id}-from`}>From (UTC)</label>
          <input className="input" id={`${id}-from`} name="from" type="date" />
        </div>
        <div className="field">
          <label htmlFor={`${id}-to`}>To (UTC)</label>
          <input className="input" id={`${id}-to`} name="to" type="date" />
        </div>
        <button className="button" type="submit" aria-disabled={busy}>
          Ask
          <span className={busy ? 'pending' : ''} />
        </button>
        <noscript>
          <p>Asking needs JavaScript.</p>
        </noscript>
      </form>
      {outcome?.ok === false && <Said outcome={outcome} />}
      {outcome?.ok && (
        <>
          <p role="status">{counted(outcome.value.total, 'entry', 'entries')}, latest first.</p>
          <Failures failures={outcome.value.failures} />
          {outcome.value.rows.length > 0 && <LogRows rows={outcome.value.rows} />}
          <p className="turn no-print">
            {form?.has('before') && (
              <button className="button button-quiet" type="button" onClick={() => again(null)}>
                Latest entries
              </button>
            )}
            {outcome.value.next !== null && (
              <button className="button button-quiet" type="button" onClick={() => again(outcome.value.next)}>
                Earlier entries
              </button>
            )}
          </p>
        </>
      )}
    </section>
  )
}
