'use client'

import { useId } from 'react'
import type { OpenedEmergency } from '../../../lib/usecases/index.ts'
import { PatientLink } from '../merge/PatientLink.tsx'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly open: FormAct<OpenedEmergency>
  /** What stands for the record in the address of its page; null where a person types the number. */
  readonly address: string | null
}

/** Asks a physician why a closed record has to be opened, and opens it. The number is sent in the form and never stands in an address. */
export function OpenForm({ open, address }: Props) {
  const form = useKeptForm(open)
  const { outcome, busy } = form
  const id = useId()
  return (
    <>
      <Told outcome={outcome}>
        {outcome?.ok && (
          <>
            Open until {outcome.value.until}: <PatientLink id={outcome.value.patientId} address={outcome.value.address} />
          </>
        )}
      </Told>
      <form className="no-print" action={form.send} aria-label="Open as an emergency view">
        {address === null ? (
          <div className="field">
            <label htmlFor={`${id}-number`}>Patient number</label>
            <input
              className="input"
              id={`${id}-number`}
              name="patientId"
              required
              maxLength={500}
              autoComplete="off"
              spellCheck={false}
              defaultValue={form.typed('patientId')}
            />
          </div>
        ) : (
          <input type="hidden" name="patientId" value={address} />
        )}
        <div className="field">
          <label htmlFor={`${id}-reason`}>Why you have to see this record</label>
          <input
            className="input"
            id={`${id}-reason`}
            name="reason"
            required
            minLength={10}
            maxLength={500}
            autoComplete="off"
            aria-describedby={`${id}-warns`}
            defaultValue={form.typed('reason')}
          />
          <p className="small soft" id={`${id}-warns`}>
            At least 10 characters. The quality team reads it as you write it: leave out names, numbers and dates of birth.
          </p>
        </div>
        <noscript>
          <p>Sending this needs JavaScript.</p>
        </noscript>
        {outcome?.ok === false && <Said outcome={outcome} />}
        {/* Not disabled while it waits: a disabled button loses the focus. */}
        <button className="button" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
          Open for 60 minutes
          <span className={busy ? 'pending' : ''} />
        </button>
      </form>
    </>
  )
}
