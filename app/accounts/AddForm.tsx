'use client'

import { useActionState } from 'react'
import { ROLES } from '../../lib/access/index.ts'
import { Said } from '../_parts/Said.tsx'
import { addPerson } from '../_server/actions.ts'
import { CodeShown } from './CodeShown.tsx'

/** Adds a person and shows the one-time code, this once. */
export function AddForm() {
  const [outcome, add, busy] = useActionState(addPerson, null)
  return (
    <section className="notice" aria-labelledby="add">
      <h2 id="add">Add a person</h2>
      <form className="filters" action={add}>
        <div className="field">
          <label htmlFor="new-name">Name</label>
          <input className="input" id="new-name" name="name" autoComplete="off" autoCapitalize="none" spellCheck={false} required maxLength={100} />
        </div>
        <div className="field">
          <label htmlFor="new-role">Role</label>
          <select className="input" id="new-role" name="role" defaultValue="navigator">
            {ROLES.map((role) => (
              <option key={role}>{role}</option>
            ))}
          </select>
        </div>
        <button className="button" type="submit" disabled={busy}>
          Add
        </button>
      </form>
      <Said outcome={outcome} done={outcome?.ok && <CodeShown {...outcome.value} />} />
    </section>
  )
}
