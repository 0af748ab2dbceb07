'use client'

import { type SubmitEvent, useState } from 'react'
import { Progress } from '../Progress.tsx'
import { Said } from '../Said.tsx'
import type { AskedFields } from './address.ts'
import { useWork } from './useWork.ts'

interface Built {
  readonly revision: number
  readonly sha256: string
}

interface Props {
  readonly asked: AskedFields
  /** The report on the page: what it is compared with unless somebody types the foot of another. */
  readonly shown: Built
}

function compared(was: string, { revision: before }: Built, { revision, sha256 }: Built): string {
  if (was === sha256) return `The same: the figures have this SHA-256 again. Revision ${revision} of the data.`
  const now = `The figures are other ones now: SHA-256 ${sha256}, revision ${revision} of the data.`
  return revision === before
    ? `${now} A report of another revision, another day or another version of Lowmark.`
    : `${now} The data have changed since.`
}

/** Builds the same report once more from the data of now, and says whether its figures are the same. */
export function Rebuild({ asked, shown }: Props) {
  const { step, outcome, run } = useWork<Built>('/follow-up/work')
  const [was, setWas] = useState(shown.sha256)
  const send = (event: SubmitEvent<HTMLFormElement>): void => {
    event.preventDefault()
    setWas(
      String(new FormData(event.currentTarget).get('sha256') ?? '')
        .replace(/\s/g, '')
        .toLowerCase(),
    )
    void run({ ...asked })
  }
  return (
    <form className="filters no-print" method="post" onSubmit={send} aria-label="Build again and compare">
      <div className="field grow">
        <label htmlFor="report-sha256">SHA-256 at the foot of the report</label>
        <input
          className="input received"
          id="report-sha256"
          name="sha256"
          autoComplete="off"
          spellCheck={false}
          maxLength={100}
          defaultValue={shown.sha256}
        />
      </div>
      <button
        className="button button-quiet"
        type="submit"
        aria-disabled={step !== null}
        onClick={(event) => step !== null && event.preventDefault()}
      >
        Build again and compare
      </button>
      <div className="followup-work" role="status">
        {step !== null && <Progress step={step} />}
        {outcome?.ok && <p className="said">{compared(was, shown, outcome.value)}</p>}
      </div>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </form>
  )
}
