'use client'

import { useId } from 'react'
import type { WaitingMergeView } from '../../../lib/usecases/index.ts'
import { Disclosed } from '../Disclosed.tsx'
import { EmptySentence } from '../EmptySentence.tsx'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type KeptForm, useKeptForm } from '../useKeptForm.ts'
import type { MergeActs } from './acts.ts'
import { MergeFacts } from './MergeFacts.tsx'
import { SideBySide } from './SideBySide.tsx'

type Sent = KeptForm<{ readonly sentence: string }>

/** The part of a form's answer that is about this merge. */
function of(mergeId: number, form: Sent): Sent {
  return form.form?.get('mergeId') === String(mergeId) ? form : { ...form, outcome: null, typed: (_: string, usual = '') => usual }
}

function Reason({ value }: { readonly value: string }) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Why not (kept; may be left empty)</label>
      <input className="input" id={id} name="reason" maxLength={500} autoComplete="off" defaultValue={value} />
    </div>
  )
}

function Waiting({ merge, confirming, declining }: { readonly merge: WaitingMergeView; readonly confirming: Sent; readonly declining: Sent }) {
  const { mergeId, fromId, intoId, notToConfirm, own } = merge
  const [confirm, decline] = [of(mergeId, confirming), of(mergeId, declining)]
  const about = `${fromId} and ${intoId}`
  return (
    <article className="held-row" aria-labelledby={`merge-${mergeId}`}>
      <h3 id={`merge-${mergeId}`}>
        <bdi>{fromId}</bdi> into <bdi>{intoId}</bdi>
      </h3>
      <MergeFacts merge={merge} />
      <SideBySide compared={merge} />
      {notToConfirm === null ? (
        <form className="no-print" action={confirm.send} aria-label={`Confirm: ${about}`}>
          <input type="hidden" name="mergeId" value={mergeId} />
          <p>Confirm only what you have looked at yourself: from then on the results of both count for one patient.</p>
          <button className="button" type="submit" aria-disabled={confirm.busy} onClick={(event) => confirm.busy && event.preventDefault()}>
            They are one person: join them
            <span className={confirm.busy ? 'pending' : ''} />
          </button>
        </form>
      ) : (
        <p className="notice">{notToConfirm}</p>
      )}
      {confirm.outcome?.ok === false && <Said outcome={confirm.outcome} />}
      <Disclosed
        form={decline}
        says={own ? 'Take it back' : 'Decline'}
        to={about}
        button={own ? 'Take the proposal back' : 'Decline it'}
        about={{ mergeId: String(mergeId) }}
      >
        <Reason value={decline.typed('reason')} />
      </Disclosed>
    </article>
  )
}

/** Merges that wait for a second person, each side by side. The answer stands above them: the merge it is about is gone by then. */
export function WaitingMerges({
  merges,
  acts,
}: {
  readonly merges: readonly WaitingMergeView[]
  readonly acts: Pick<MergeActs, 'confirm' | 'decline'>
}) {
  const confirming = useKeptForm(acts.confirm)
  const declining = useKeptForm(acts.decline)
  return (
    <>
      <Told outcome={confirming.outcome}>{confirming.outcome?.ok && confirming.outcome.value.sentence}</Told>
      <Told outcome={declining.outcome}>{declining.outcome?.ok && declining.outcome.value.sentence}</Told>
      {merges.length === 0 && <EmptySentence says="None waits." next="A merge is proposed on the page of one of the two patients." />}
      <div className="held">
        {merges.map((merge) => (
          <Waiting key={merge.mergeId} merge={merge} confirming={confirming} declining={declining} />
        ))}
      </div>
    </>
  )
}
