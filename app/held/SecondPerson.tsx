'use client'

import { Disclosed } from '../_parts/Disclosed.tsx'
import { Said } from '../_parts/Said.tsx'
import { Told } from '../_parts/Told.tsx'
import { TypedField } from '../_parts/TypedField.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { confirmHeldPatient, declineHeldPatient } from '../_server/heldActs.ts'

/** The second person's answer to whose a row is. */
export function SecondPerson({ heldId, mayConfirm }: { readonly heldId: number; readonly mayConfirm: boolean }) {
  const confirming = useKeptForm(confirmHeldPatient)
  const declining = useKeptForm(declineHeldPatient)
  if (confirming.outcome?.ok) return <Told outcome={confirming.outcome}>{confirming.outcome.value.sentence}</Told>
  return (
    <>
      {mayConfirm && (
        <form className="no-print" action={confirming.send}>
          <input type="hidden" name="heldId" value={heldId} />
          <button className="button" type="submit" aria-disabled={confirming.busy} onClick={(event) => confirming.busy && event.preventDefault()}>
            Confirm and file
          </button>
          {confirming.outcome?.ok === false && <Said outcome={confirming.outcome} />}
        </form>
      )}
      <Disclosed
        form={declining}
        says={mayConfirm ? 'Decline' : 'Take the proposal back'}
        to={`row ${heldId}`}
        button={mayConfirm ? 'Decline it' : 'Take it back'}
        about={{ heldId: String(heldId) }}
      >
        <TypedField says="Why (kept)" name="reason" value={declining.typed('reason')} />
      </Disclosed>
    </>
  )
}
