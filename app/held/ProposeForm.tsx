'use client'

import { useId } from 'react'
import { Said } from '../_parts/Said.tsx'
import { TypedField } from '../_parts/TypedField.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { counted } from '../_parts/words.ts'
import { compareHeldRow, proposeHeldPatient } from '../_server/heldActs.ts'
import { Compared } from './Compared.tsx'
import { Remember } from './Remember.tsx'

interface Props {
  readonly heldId: number
  readonly rows: number
  readonly source: string | null
  readonly notRemembered: string | null
}

/** Looks at what identifies a patient beside the row, then proposes that the row is theirs. Somebody else confirms it. */
export function ProposeForm({ heldId, rows, source, notRemembered }: Props) {
  const id = useId()
  const comparing = useKeptForm(compareHeldRow)
  const proposing = useKeptForm(proposeHeldPatient)
  const compared = comparing.outcome?.ok ? comparing.outcome.value : null
  return (
    <section className="no-print" aria-labelledby="whose">
      <h2 id="whose">Whose it is</h2>
      <p className="soft">One person proposes, another confirms: nothing is filed before that.</p>
      <form className="filters" action={comparing.send} aria-label="Compare with a patient">
        <input type="hidden" name="heldId" value={heldId} />
        <div className="field grow">
          <label htmlFor={id}>Patient number</label>
          <input className="input" id={id} name="patientId" defaultValue={comparing.typed('patientId')} required maxLength={500} autoComplete="off" />
        </div>
        <button className="button button-quiet" type="submit">
          Compare
        </button>
        {comparing.outcome?.ok === false && <Said outcome={comparing.outcome} />}
      </form>
      {compared !== null && (
        <>
          <Compared compared={compared} />
          <form action={proposing.send} aria-label="Propose whose it is">
            <input type="hidden" name="heldId" value={heldId} />
            <input type="hidden" name="patientId" value={compared.patient.patientId} />
            {rows > 1 ? (
              <fieldset className="held-scope">
                <legend>For</legend>
                <label>
                  <input type="radio" name="scope" value="one" defaultChecked={proposing.typed('scope') !== 'alike'} /> this row only
                </label>
                <label>
                  <input type="radio" name="scope" value="alike" defaultChecked={proposing.typed('scope') === 'alike'} /> all {counted(rows, 'row')}{' '}
                  that name the same person so
                </label>
              </fieldset>
            ) : (
              <input type="hidden" name="scope" value="one" />
            )}
            <Remember source={source} notRemembered={notRemembered} chosen={proposing.typed('remember') === 'on'} />
            <TypedField says="Reason (the second person reads it)" name="reason" value={proposing.typed('reason')} />
            {proposing.outcome?.ok === false && <Said outcome={proposing.outcome} />}
            <button className="button" type="submit" aria-disabled={proposing.busy}>
              Propose: patient {compared.patient.patientId}
            </button>
          </form>
        </>
      )}
    </section>
  )
}
