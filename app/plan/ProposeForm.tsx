'use client'

import { type SubmitEvent, useRef, useState } from 'react'
import type { Outcome, PlanFormView } from '../../lib/usecases/index.ts'
import { Progress } from '../_parts/Progress.tsx'
import { proposePlanChange } from '../_server/actions.ts'
import { Field } from './Field.tsx'
import { Tried } from './Tried.tsx'
import { UNHEARD } from './tryPlan.ts'
import { useTrial } from './useTrial.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

function inGroups(choices: PlanFormView['choices']): [string, PlanFormView['choices'][number][]][] {
  const groups = new Map<string, PlanFormView['choices'][number][]>()
  for (const one of choices) groups.set(one.choice.about, [...(groups.get(one.choice.about) ?? []), one])
  return [...groups]
}

/** The numbers beside their words. They are tried first, and proposed as they were tried; whatever is refused, what was typed stays. */
export function ProposeForm({ basedOn, earliest, latest, choices }: PlanFormView) {
  const form = useRef<HTMLFormElement>(null)
  const trial = useTrial(false)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [proposed, setProposed] = useState<number | null>(null)
  const [busy, setBusy] = useState(false)
  const tried = trial.outcome?.ok ? trial.outcome.value : null
  const wrongIn = (field: string) => refusal?.fields?.find((problem) => problem.field === field)?.says ?? null

  async function propose(fields: FormData): Promise<Outcome<{ readonly version: number }>> {
    const outcome = await proposePlanChange(null, fields).catch(() => UNHEARD)
    if (!outcome.ok) return outcome
    setProposed(outcome.value.version)
    trial.forget()
    form.current?.reset()
    return outcome
  }

  async function submit(event: SubmitEvent<HTMLFormElement>): Promise<void> {
    event.preventDefault()
    const fields = new FormData(event.currentTarget)
    const isProposal = event.submitter instanceof HTMLButtonElement && event.submitter.value === 'propose'
    setBusy(true)
    setProposed(null)
    setRefusal(null)
    const outcome = isProposal ? await propose(fields) : await trial.run(fields)
    setRefusal(outcome.ok ? null : outcome)
    setBusy(false)
  }

  return (
    <form ref={form} method="post" noValidate onInput={trial.forget} onSubmit={(event) => void submit(event)}>
      <input type="hidden" name="basedOn" value={basedOn} />
      <div className="plan-groups">
        {inGroups(choices).map(([about, group]) => (
          <fieldset className={group.length > 3 ? 'plan-group plan-group-wide' : 'plan-group'} key={about}>
            <legend>{about}</legend>
            {group.map((one) => (
              <Field key={one.choice.id} {...one} wrong={wrongIn(one.choice.id)} />
            ))}
          </fieldset>
        ))}
      </div>
      <div className="filters">
        <div className="field">
          <label htmlFor="plan-from">First day it is followed</label>
          <input
            className="input"
            id="plan-from"
            name="from"
            type="date"
            min={earliest}
            max={latest}
            defaultValue={earliest}
            aria-invalid={wrongIn('from') !== null}
          />
        </div>
        <div className="field grow">
          <label htmlFor="plan-note">Why (kept with the version)</label>
          <input className="input" id="plan-note" name="note" maxLength={1000} autoComplete="off" aria-invalid={wrongIn('note') !== null} />
        </div>
      </div>
      <div className="filters">
        <button className="button button-quiet" type="submit" value="try" disabled={busy}>
          Try: show which windows would change
        </button>
        <button className="button" type="submit" value="propose" disabled={busy || tried === null}>
          Propose it
        </button>
        {tried === null && <span className="soft">It can be proposed once it was tried as it stands.</span>}
      </div>
      <noscript>
        <p>Trying and proposing need JavaScript.</p>
      </noscript>
      <div role="status">{trial.step !== null && <Progress step={trial.step} />}</div>
      {refusal !== null && (
        <p className="notice notice-alert" role="alert">
          {refusal.reason}
        </p>
      )}
      {proposed !== null && (
        <p className="said" role="status">
          Version {proposed} is proposed. It waits for an administrator; nothing has changed yet.
        </p>
      )}
      {tried !== null && <Tried tried={tried} />}
    </form>
  )
}
