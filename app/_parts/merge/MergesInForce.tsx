'use client'

import type { MergeView } from '../../../lib/usecases/index.ts'
import { Disclosed } from '../Disclosed.tsx'
import { Told } from '../Told.tsx'
import { TypedField } from '../TypedField.tsx'
import { type KeptForm, useKeptForm } from '../useKeptForm.ts'
import type { MergeActs } from './acts.ts'
import { MergeFacts } from './MergeFacts.tsx'
import { PatientLink } from './PatientLink.tsx'

type Sent = KeptForm<{ readonly sentence: string }>

function InForce({ merge, form }: { readonly merge: MergeView; readonly form: Sent }) {
  const { mergeId, fromId, intoId, intoAddress } = merge
  const own = form.form?.get('mergeId') === String(mergeId) ? form : { ...form, outcome: null, typed: (_: string, usual = '') => usual }
  return (
    <li>
      <article className="held-row" aria-labelledby={`merge-${mergeId}`}>
        <h3 id={`merge-${mergeId}`}>
          <bdi>{fromId}</bdi> is read as part of <PatientLink id={intoId} address={intoAddress} />
        </h3>
        <MergeFacts merge={merge} />
        <Disclosed form={own} says="End it" to={`${fromId} and ${intoId}`} button="Read them apart again" about={{ mergeId: String(mergeId) }}>
          <p>
            At once and by one person. Each record is read alone again, exactly as if they had never been joined; what was decided of the patient
            meanwhile stays with the kept record, what was decided of a result with that result.
          </p>
          <TypedField says="Why it is ended" name="reason" value={own.typed('reason')} />
        </Disclosed>
      </article>
    </li>
  )
}

/** Merges in force, each with the way to end it. The answer stands above them: the merge it is about is gone by then. */
export function MergesInForce({ merges, end }: { readonly merges: readonly MergeView[]; readonly end: MergeActs['end'] }) {
  const form = useKeptForm(end)
  return (
    <>
      <Told outcome={form.outcome}>{form.outcome?.ok && form.outcome.value.sentence}</Told>
      {merges.length > 0 && (
        <ul className="held">
          {merges.map((merge) => (
            <InForce key={merge.mergeId} merge={merge} form={form} />
          ))}
        </ul>
      )}
    </>
  )
}
