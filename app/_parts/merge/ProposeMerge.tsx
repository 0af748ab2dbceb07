'use client'

import { type SubmitEvent, startTransition, useEffect, useId, useState } from 'react'
import type { ComparisonView, Outcome } from '../../../lib/usecases/index.ts'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { useKeptForm } from '../useKeptForm.ts'
import type { MergeActs } from './acts.ts'
import { SideBySide } from './SideBySide.tsx'

type Answer = { readonly did: 'compare'; readonly compared: ComparisonView } | { readonly did: 'propose'; readonly mergeId: number }

function answered<T>(outcome: Outcome<T>, told: (value: T) => Answer): Outcome<Answer> {
  return outcome.ok ? { ok: true, value: told(outcome.value) } : outcome
}

interface Props {
  readonly patientId: string
  readonly compare: MergeActs['compare']
  readonly propose: MergeActs['propose']
}

/** Names the other record, shows both side by side, and only then lets it be proposed that they are one person's. */
export function ProposeMerge({ patientId, compare, propose }: Props) {
  const [other, setOther] = useState('')
  const [keepsThis, setKeepsThis] = useState(true)
  const [reason, setReason] = useState('')
  const id = useId()
  const otherId = other.trim()
  const [fromId, intoId] = keepsThis ? [otherId, patientId] : [patientId, otherId]
  const form = useKeptForm<Answer>(async (sent) => {
    const asked = new FormData()
    for (const name of ['fromId', 'intoId']) asked.set(name, String(sent.get(name) ?? ''))
    if (sent.get('do') === 'compare') return answered(await compare(asked), (compared) => ({ did: 'compare', compared }))
    asked.set('reason', String(sent.get('reason') ?? ''))
    return answered(await propose(asked), ({ mergeId }) => ({ did: 'propose', mergeId }))
  })
  const [seen, setSeen] = useState<ComparisonView | null>(null)
  const { outcome, busy, send } = form
  useEffect(() => {
    if (!outcome?.ok) return
    setSeen(outcome.value.did === 'compare' ? outcome.value.compared : null)
    if (outcome.value.did === 'compare') return
    setOther('')
    setReason('')
  }, [outcome])
  // What was compared is about two records this way round: other words in the form take it away.
  const compared = seen !== null && seen.from.patientId === fromId && seen.into.patientId === intoId ? seen : null
  // Not as the form's action: that would reset the radio buttons to how they first stood.
  function submit(event: SubmitEvent<HTMLFormElement>): void {
    event.preventDefault()
    if (busy) return
    const sent = new FormData(event.currentTarget, event.submitter)
    startTransition(() => send(sent))
  }
  return (
    <>
      <details className="disclosed no-print">
        <summary>Propose that another record is of the same person</summary>
        <form method="post" onSubmit={submit} aria-label="Same person as another record">
          <p>
            Somebody else has to confirm it. Until then nothing changes, and nothing stored is ever changed by it: once ended, both records are what
            they were.
          </p>
          <input type="hidden" name="fromId" value={fromId} />
          <input type="hidden" name="intoId" value={intoId} />
          <div className="field">
            <label htmlFor={`${id}-other`}>Patient number of the other record</label>
            <input
              className="input"
              id={`${id}-other`}
              required
              maxLength={500}
              autoComplete="off"
              value={other}
              onChange={(event) => setOther(event.target.value)}
            />
          </div>
          <fieldset className="field">
            <legend className="label">Which record is kept</legend>
            <label>
              <input type="radio" checked={keepsThis} onChange={() => setKeepsThis(true)} /> this one, <bdi>{patientId}</bdi>
            </label>
            <label>
              <input type="radio" checked={!keepsThis} onChange={() => setKeepsThis(false)} /> the other one
            </label>
          </fieldset>
          <button className="button button-quiet" type="submit" name="do" value="compare" aria-disabled={busy}>
            Compare the two
            <span className={busy ? 'pending' : ''} />
          </button>
          {compared !== null && <SideBySide compared={compared} />}
          {compared !== null && compared.obstacle !== null && <p className="notice notice-alert">{compared.obstacle}</p>}
          {compared !== null && compared.obstacle === null && (
            <>
              <div className="field">
                <label htmlFor={`${id}-reason`}>Why they are one person (kept, and shown to whoever confirms)</label>
                <input
                  className="input"
                  id={`${id}-reason`}
                  name="reason"
                  required
                  minLength={3}
                  maxLength={500}
                  autoComplete="off"
                  value={reason}
                  onChange={(event) => setReason(event.target.value)}
                />
              </div>
              <button className="button" type="submit" name="do" value="propose" aria-disabled={busy}>
                Propose to join them
              </button>
            </>
          )}
          <noscript>
            <p>Sending this needs JavaScript.</p>
          </noscript>
          {outcome?.ok === false && <Said outcome={outcome} />}
        </form>
      </details>
      {outcome?.ok && outcome.value.did === 'propose' && (
        <Told outcome={outcome}>Proposed. It waits under Merges for somebody else to confirm it.</Told>
      )}
    </>
  )
}
