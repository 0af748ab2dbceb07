'use client'

import { useId } from 'react'
import type { AssignmentView } from '../../../lib/usecases/index.ts'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly assignment: AssignmentView
  readonly give: FormAct<{ readonly to: string | null }>
}

/** Who has the patient, and the form that gives the patient to somebody else, or to nobody. It carries what it was shown, so that two never overwrite each other. */
export function AssignForm({ assignment, give }: Props) {
  const { patientId, assignmentId, to, disabled, isYou, by, at, people } = assignment
  const form = useKeptForm(give)
  const id = useId()
  const { outcome } = form
  return (
    <section className="notice no-print" aria-labelledby={`${id}-head`}>
      <h2 id={`${id}-head`}>
        {to === null ? (
          'Nobody has this patient'
        ) : (
          <>
            {isYou ? 'You have' : <bdi>{to}</bdi>}
            {isYou ? '' : ' has'} this patient{disabled && ' (account disabled)'}
          </>
        )}
      </h2>
      {by !== null && (
        <p className="soft small">
          Since {at}, by <bdi>{by}</bdi>.
        </p>
      )}
      <Told outcome={outcome}>
        {outcome?.ok && (outcome.value.to === null ? 'Nobody has the patient now.' : `${outcome.value.to} has the patient now.`)}
      </Told>
      <form className="filters" key={assignmentId} action={form.send} aria-label="Give this patient to">
        <input type="hidden" name="patientId" value={patientId} />
        <input type="hidden" name="shown" value={assignmentId ?? ''} />
        <div className="field">
          <label htmlFor={`${id}-to`}>Give to</label>
          <select className="input" id={`${id}-to`} name="to" key={form.typed('to')} defaultValue={form.typed('to')}>
            <option value="">nobody</option>
            {people.map(({ accountId, name, role }) => (
              <option key={accountId} value={accountId}>
                {name}, {role}
              </option>
            ))}
          </select>
        </div>
        <button className="button button-quiet" type="submit" aria-disabled={form.busy} onClick={(event) => form.busy && event.preventDefault()}>
          Give
          <span className={form.busy ? 'pending' : ''} />
        </button>
      </form>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </section>
  )
}
