'use client'

import { useEffect, useRef } from 'react'
import { addDays } from '../../../lib/time/index.ts'
import type { AnswerChoice, Answered, BesideFinding, BesideView, Outcome } from '../../../lib/usecases/index.ts'
import { BringBack, KindChoice, NoteField } from '../../_parts/answer/index.ts'
import { Said } from '../../_parts/Said.tsx'
import { type FormAct, useKeptForm } from '../../_parts/useKeptForm.ts'
import { KIND_KEYS } from './keys.ts'

/** Where a key asked the focus to go; each press is a new object. */
export interface Wanted {
  readonly focus: 'heading' | 'note' | 'none'
}

/** What was typed of a patient and not sent. */
export interface Draft {
  readonly note: string
  readonly kind: AnswerChoice['kind']
}

interface Props {
  readonly view: BesideView
  readonly chosen: readonly BesideFinding[]
  readonly act: FormAct<Answered>
  readonly wanted: Wanted
  readonly draft: Draft
  readonly keepDraft: (draft: Draft) => void
  /** Told what became of it, before the form shows it. */
  readonly onOutcome: (outcome: Outcome<Answered>, kind: AnswerChoice['kind']) => void
}

/** The answer to the chosen findings of one patient. */
export function AnswerBeside({ view, chosen, act, wanted, draft, keepDraft, onOutcome }: Props) {
  const { kind } = draft
  const note = useRef<HTMLInputElement>(null)
  const form = useKeptForm<Answered>(async (fields) => {
    const outcome = await act(fields)
    onOutcome(outcome, kind)
    return outcome
  })
  useEffect(() => {
    if (wanted.focus === 'note') note.current?.focus()
  }, [wanted])
  const choose = (next: AnswerChoice['kind']) => keepDraft({ note: note.current?.value ?? '', kind: next })
  const choice = view.choices.find((one) => one.kind === kind)
  const staying = chosen.every(({ danger, once }) => danger || once)
  const hasDay = !staying && choice?.bringBackOn !== null
  const findings = JSON.stringify(chosen.map(({ rule, key, lastDone }) => ({ rule, key, lastDone })))
  return (
    <form className="beside-form" action={form.send} aria-label="Answer">
      <input type="hidden" name="patientId" value={view.patientId} />
      <input type="hidden" name="findings" value={findings} />
      <KindChoice choices={view.choices} kind={kind} choose={choose} keys={KIND_KEYS} />
      {chosen.some(({ danger }) => danger) && <p>A danger finding stays on the list, whatever is noted, until the samples no longer show it.</p>}
      <NoteField
        value={form.typed('note', draft.note)}
        needed={choice?.needsNote ?? true}
        field={note}
        changed={(text) => keepDraft({ note: text, kind })}
      />
      {hasDay ? (
        <BringBack
          key={kind}
          from={addDays(view.asOf, 1)}
          atMost={view.bringBackAtMost}
          value={form.typed('bringBackOn', choice?.bringBackOn ?? view.bringBackAtMost)}
        />
      ) : (
        <input type="hidden" name="bringBackOn" value="" />
      )}
      {form.outcome?.ok === false && <Said outcome={form.outcome} />}
      <button className="button" type="submit" aria-disabled={form.busy} onClick={(event) => form.busy && event.preventDefault()}>
        {chosen.length > 1 ? `Answer ${chosen.length} findings` : 'Answer this finding'}
        <span className={form.busy ? 'pending' : ''} />
      </button>
    </form>
  )
}
