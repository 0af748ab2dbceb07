'use client'

import { ROLES } from '../../lib/access/index.ts'
import { Asks } from '../_parts/Asks.tsx'
import { Said } from '../_parts/Said.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { usePlainForm } from '../_parts/usePlainForm.ts'
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
  const disable = usePlainForm(disablePerson)
  const end = usePlainForm(endPersonsSessions)
  const take = usePlainForm(takePersonsFactor)
  const unjoin = usePlainForm(unjoinPerson)
  const give = usePlainForm(givePersonsCode)
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
        <form {...end.sent}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={end.busy || openSessions === 0}>
            End sessions
          </button>
        </form>
        <form {...give.sent}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={give.busy}>
            New one-time code
          </button>
        </form>
        {joined && (
          <form {...unjoin.sent}>
            <input type="hidden" name="name" value={name} />
            <button className="button button-quiet" type="submit" disabled={unjoin.busy}>
              Unjoin from single sign-on
            </button>
          </form>
        )}
        <form {...take.sent}>
          <input type="hidden" name="name" value={name} />
          <button className="button button-quiet" type="submit" disabled={take.busy || !hasSecondFactor}>
            Take the second factor away
          </button>
        </form>
        <Asks
          says="Disable"
          to={name}
          question="Open sessions end at once, and the account cannot be opened again. What this person did stays in the log."
        >
          <form {...disable.sent}>
            <input type="hidden" name="name" value={name} />
            <button className="button" type="submit" disabled={disable.busy}>
              Disable <bdi>{name}</bdi> for good
            </button>
          </form>
        </Asks>
      </div>
      {[changed, end.outcome, take.outcome, unjoin.outcome, disable.outcome].map((outcome, index) => (
        <Said key={['role', 'sessions', 'factor', 'unjoin', 'disable'][index]} outcome={outcome} done="Done." />
      ))}
      <Said outcome={give.outcome} done={give.outcome?.ok && <CodeShown {...give.outcome.value} />} />
    </details>
  )
}
