'use client'

import type { MadeCodes } from '../../lib/usecases/index.ts'
import { Said } from '../_parts/Said.tsx'
import { type KeptForm, useKeptForm } from '../_parts/useKeptForm.ts'
import { offerFactor } from '../_server/accountActs.ts'
import { ProofFields } from './ProofFields.tsx'

interface Props {
  readonly setting: KeptForm<MadeCodes>
}

/** Takes a new secret into an authenticator app, and shows by the password and a first code that it is there. */
export function SetUp({ setting }: Props) {
  const offering = useKeptForm(offerFactor)
  const offered = offering.outcome?.ok ? offering.outcome.value : null
  const isUsed = setting.outcome?.ok === true && setting.form?.get('offer') === offered?.offer
  if (offered === null || isUsed) {
    return (
      <form className="no-print" action={offering.send} aria-label="Begin">
        <button className="button" type="submit" aria-disabled={offering.busy}>
          Set up a second factor
        </button>
        <Said outcome={offering.outcome?.ok === false ? offering.outcome : null} />
      </form>
    )
  }
  return (
    <form className="no-print" action={setting.send} aria-label="Set up a second factor">
      <input type="hidden" name="offer" value={offered.offer} />
      <ol className="steps">
        <li>
          Scan this QR code with an authenticator app.
          {/* biome-ignore lint/performance/noImgElement: a picture of a few kilobytes that came with the answer; there is nothing to optimise. */}
          <img className="qr-code" src={offered.picture} alt="QR code of the secret; as text it stands below." width={220} height={220} />
        </li>
        <li>
          Or type the secret into the app by hand (time-based, six digits):
          <span className="code">{offered.secret.match(/.{1,4}/g)?.join(' ')}</span>
        </li>
        <li>
          Type your password and the code the app shows now.
          <ProofFields codeSays="Code of the app" />
        </li>
      </ol>
      <Said outcome={setting.outcome?.ok === false ? setting.outcome : null} />
      <button className="button" type="submit" aria-disabled={setting.busy} onClick={(event) => setting.busy && event.preventDefault()}>
        Confirm
      </button>
    </form>
  )
}
