'use client'

import { type SubmitEvent, useState } from 'react'
import type { Outcome, PlanPage } from '../../lib/usecases/index.ts'
import { Progress } from '../_parts/Progress.tsx'
import { Said } from '../_parts/Said.tsx'
import { publishPlanVersion, refusePlanVersion } from '../_server/actions.ts'
import { Tried } from './Tried.tsx'
import { UNHEARD } from './tryPlan.ts'
import { useTrial } from './useTrial.ts'

interface Props {
  readonly version: number
  readonly wished: string
  readonly publishing: NonNullable<PlanPage['publishing']>
  /** Why it cannot be published; null where it can. */
  readonly notToPublish: string | null
}

/** For an administrator: how many windows would change, then publish from a day on, or refuse with a reason. */
export function DecideForm({ version, wished, publishing: { earliest, latest }, notToPublish }: Props) {
  const trial = useTrial(true)
  const [busy, setBusy] = useState(false)
  const [outcome, setOutcome] = useState<Outcome<unknown> | null>(null)
  const tried = trial.outcome?.ok ? trial.outcome.value : null

  async function answer(event: SubmitEvent<HTMLFormElement>, run: (form: FormData) => Promise<Outcome<unknown>>): Promise<void> {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    setBusy(true)
    setOutcome(null)
    const answered = await run(form).catch(() => UNHEARD)
    setOutcome(answered)
    setBusy(false)
  }

  const isPublication = (event: SubmitEvent<HTMLFormElement>) => event.submitter instanceof HTMLButtonElement && event.submitter.value === 'publish'
  const publish = (form: FormData) => publishPlanVersion(null, form)
  return (
    <>
      {notToPublish === null ? (
        <form
          className="filters no-print"
          method="post"
          noValidate
          onInput={trial.forget}
          onSubmit={(event) => void answer(event, isPublication(event) ? publish : trial.run)}
        >
          <input type="hidden" name="version" value={version} />
          <div className="field">
            <label htmlFor={`from-${version}`}>First day it is followed</label>
            <input
              className="input"
              id={`from-${version}`}
              name="from"
              type="date"
              min={earliest}
              max={latest}
              defaultValue={wished < earliest ? earliest : wished}
            />
          </div>
          <button className="button button-quiet" type="submit" value="try" disabled={busy}>
            Try: count the windows that would change
          </button>
          <button className="button" type="submit" value="publish" disabled={busy || tried === null}>
            Publish version {version}
          </button>
          {tried === null && <span className="soft">It can be published once it was tried for that day.</span>}
        </form>
      ) : (
        <p className="notice">{notToPublish}</p>
      )}
      <div role="status">{trial.step !== null && <Progress step={trial.step} />}</div>
      {tried !== null && <Tried tried={tried} />}
      <form className="filters no-print" method="post" noValidate onSubmit={(event) => void answer(event, (form) => refusePlanVersion(null, form))}>
        <input type="hidden" name="version" value={version} />
        <div className="field grow">
          <label htmlFor={`reason-${version}`}>Reason for refusing (its physician reads it)</label>
          <input className="input" id={`reason-${version}`} name="reason" maxLength={1000} autoComplete="off" />
        </div>
        <button className="button button-quiet" type="submit" disabled={busy}>
          Refuse version {version}
        </button>
      </form>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </>
  )
}
