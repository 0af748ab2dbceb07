'use client'

import { useId } from 'react'
import type { Day } from '../../../lib/time/index.ts'
import { Disclosed } from '../Disclosed.tsx'
import { Told } from '../Told.tsx'
import { TypedField } from '../TypedField.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly act: FormAct<{ bringBackOn: Day }>
  readonly about: Readonly<Record<'patientId' | 'rule' | 'key', string>>
  readonly title: string
  /** A danger finding is noted and stays; every other finding is answered and comes back. */
  readonly danger: boolean
  /** What was taken back is answered once and does not come back. */
  readonly once: boolean
  readonly answered: boolean
  /** The first and the last day on which the finding can be brought back. */
  readonly from: Day
  readonly atMost: Day
}

function BringBack({ from, atMost, value }: { readonly from: Day; readonly atMost: Day; readonly value: string }) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Bring back on</label>
      <input
        className="input day-field"
        id={id}
        name="bringBackOn"
        type="date"
        required
        min={from}
        max={atMost}
        defaultValue={value}
        aria-describedby={`${id}-why`}
      />
      <p className="small soft" id={`${id}-why`}>
        At the latest {atMost}: never later than the next due test. New evidence brings it back sooner.
      </p>
    </div>
  )
}

/** Answers a finding together with its evidence: what was looked at, and when it comes back. */
export function AnswerForm({ act, about, title, danger, once, answered, from, atMost }: Props) {
  const form = useKeptForm(act)
  const says = danger ? 'Note what was done' : answered ? 'Answer it anew' : 'Answer'
  return (
    <>
      <Disclosed form={form} says={says} to={title} button={danger ? 'Keep the note' : 'Answer this finding'} about={about}>
        {danger && <p>A danger finding stays on the list, whatever is noted, until the samples no longer show it.</p>}
        <TypedField says="What was looked at or done" name="note" value={form.typed('note')} />
        {danger || once ? (
          <input type="hidden" name="bringBackOn" value="" />
        ) : (
          <BringBack from={from} atMost={atMost} value={form.typed('bringBackOn', atMost)} />
        )}
      </Disclosed>
      <Told outcome={form.outcome}>
        {danger
          ? 'Noted. The finding stays on the list.'
          : form.outcome?.ok &&
            (once
              ? 'Answered. It does not come back.'
              : `Answered. It comes back on ${form.outcome.value.bringBackOn}, or sooner with new evidence.`)}
      </Told>
    </>
  )
}
