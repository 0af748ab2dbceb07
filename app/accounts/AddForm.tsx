'use client'

import { ROLES } from '../../lib/access/index.ts'
import { Said } from '../_parts/Said.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { addPerson } from '../_server/actions.ts'
import { CodeShown } from './CodeShown.tsx'

/** Adds a person and shows the one-time code, this once. */
export function AddForm() {
  const { outcome, send, busy, typed } = useKeptForm((form) => addPerson(null, form))
  return (
    <section className="panel" aria-labelledby="add">
      <h2 id="add">Add a person</h2>
      <form className="filters" action={send}>
        <div className="field">
          <label htmlFor="new-name">Name</label>
          <input
            className="input"
            id="new-name"
            name="name"
            defaultValue={typed('name')}
            autoComplete="off"
            autoCapitalize="none"
            spellCheck={false}
            required
            maxLength={100}
          />
        </div>
        <div className="field">
          <label htmlFor="new-role">Role</label>
          <select className="input" id="new-role" name="role" key={typed('role', 'navigator')} defaultValue={typed('role', 'navigator')}>
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
