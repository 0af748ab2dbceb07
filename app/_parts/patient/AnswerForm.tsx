'use client'

import { useState } from 'react'
import type { Day } from '../../../lib/time/index.ts'
import type { AnswerChoice } from '../../../lib/usecases/index.ts'
import { BringBack, KindChoice, NoteField } from '../answer/index.ts'
import { Disclosed } from '../Disclosed.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly act: FormAct<{ bringBackOn: Day | null }>
  readonly about: Readonly<Record<'patientId' | 'rule' | 'key' | 'lastDone', string>>
  readonly title: string
  readonly choices: readonly AnswerChoice[]
  /** A danger finding is noted and stays; every other finding is answered and comes back. */
  readonly danger: boolean
  /** What was taken back is answered once and does not come back. */
  readonly once: boolean
  readonly answered: boolean
  /** The first and the last day on which the finding can be brought back. */
  readonly from: Day
  readonly atMost: Day
}

function saysWhat(bringBackOn: Day | null, { danger, once }: Pick<Props, 'danger' | 'once'>): string {
  if (bringBackOn === null) return 'Handed to a physician. The finding stays on the list until a physician answers it.'
  if (danger) return 'Noted. The finding stays on the list.'
  return once ? 'Answered. It does not come back.' : `Answered. It comes back on ${bringBackOn}, or sooner with new evidence.`
}

/** Answers a finding together with its evidence: what was looked at or done, and when it comes back. */
export function AnswerForm({ act, about, title, choices, danger, once, answered, from, atMost }: Props) {
  const form = useKeptForm(act)
  const [kind, choose] = useState<AnswerChoice['kind']>('seen')
  const chosen = choices.find((choice) => choice.kind === kind)
  const says = danger ? 'Note what was done' : answered ? 'Answer it anew' : 'Answer'
  const stays = danger || once || chosen?.bringBackOn === null
  return (
    <>
      <Disclosed form={form} says={says} to={title} button={danger ? 'Keep the note' : 'Answer this finding'} about={about}>
        {danger && <p>A danger finding stays on the list, whatever is noted, until the samples no longer show it.</p>}
        <NoteField value={form.typed('note')} needed={chosen?.needsNote ?? true} />
        <KindChoice choices={choices.filter((choice) => !(danger || once) || choice.kind !== 'bring-back')} kind={kind} choose={choose} />
        {stays ? (
          <input type="hidden" name="bringBackOn" value="" />
        ) : (
          <BringBack key={kind} from={from} atMost={atMost} value={form.typed('bringBackOn', chosen?.bringBackOn ?? atMost)} />
        )}
      </Disclosed>
      <Told outcome={form.outcome}>{form.outcome?.ok && saysWhat(form.outcome.value.bringBackOn, { danger, once })}</Told>
    </>
  )
}
