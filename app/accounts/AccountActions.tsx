'use client'

import { useActionState } from 'react'
import { ROLES } from '../../lib/access/index.ts'
import { Said } from '../_parts/Said.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { changePersonsRole, disablePerson, endPersonsSessions, givePersonsCode, takePersonsFactor, unjoinPerson } from '../_server/actions.ts'
import { CodeShown } from './CodeShown.tsx'

interface Props {
  readonly name: string
  readonly role: string
  readonly openSessions: number
  readonly joined: boolean
  readonly hasSecondFactor: boolean
}

/** What can be done to one account. A change of role, a new code, taking its second factor away, unjoining and disabling end its sessions at once. */
export function AccountActions({ name, role, openSessions, joined, hasSecondFactor }: Props) {
  const { outcome: changed, send: change, busy: changing, typed } = useKeptForm((form) => changePersonsRole(null, form))
  const [disabled, disable, disabling] = useActionState(disablePerson, null)
  const [ended, end, ending] = useActionState(endPersonsSessions, null)
  const [taken, take, taking] = useActionState(takePersonsFactor, null)
  const [unjoined, unjoin, unjoining] = useActionState(unjoinPerson, null)
  const [given, give, giving] = useActionState(givePersonsCode, null)
  return (
    <details>
      <summary>
        Change <bdi>{name}</bdi>
      </summary>
      <form className="filters" action={change}>
        <input type="hidden" name="name" value={name} />
        <div className="field">
          <label htmlFor={`role-${name}`}>Role</label>
          <select className="input" id={`role-${name}`} name="role" key={typed('role', role)} defaultValue={typed('role', role)}>
            {ROLES.map((known) => (
              <option key={known}>{known}</option>
            ))}
          </select>
        </div>
        <button className="button button-quiet" type="submit" disabled={changing}>
          Change role
        </button>
      </form>
      <div className="filters">
        <form action={end}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={ending || openSessions === 0}>
            End sessions
          </button>
        </form>
        <form action={give}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={giving}>
            New one-time code
          </button>
        </form>
        {joined && (
          <form action={unjoin}>
            <input type="hidden" name="name" value={name} />
            <button className="button button-quiet" type="submit" disabled={unjoining}>
              Unjoin from single sign-on
            </button>
          </form>
        )}
        <form action={take}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={taking || !hasSecondFactor}>
            Take the second factor away
          </button>
        </form>
        <form action={disable}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={disabling}>
            Disable
          </button>
        </form>
      </div>
      {[changed, ended, taken, unjoined, disabled].map((outcome, index) => (
        <Said key={['role', 'sessions', 'factor', 'unjoin', 'disable'][index]} outcome={outcome} done="Done." />
      ))}
      <Said outcome={given} done={given?.ok && <CodeShown {...given.value} />} />
    </details>
  )
}
