'use client'

import type { SessionView } from '../../../lib/usecases/index.ts'
import { Said } from '../Said.tsx'
import { TableHead } from '../TableHead.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'
import { instantText } from '../words.ts'

interface Props {
  readonly sessions: readonly SessionView[]
  readonly endOne: FormAct<unknown>
  /** Whose they are, where they are somebody else's; sent along. */
  readonly name?: string
}

/** Open sessions, each with a way to end it but the one that is being used. */
export function OpenSessions({ sessions, endOne, name }: Props) {
  const { send, busy, outcome } = useKeptForm(endOne)
  return (
    <form action={send} aria-label={name === undefined ? 'Your open sessions' : `Open sessions of ${name}`}>
      {name !== undefined && <input type="hidden" name="name" value={name} />}
      <table className="table stacked">
        <TableHead columns={['Signed in', 'Last sign of life', 'Address', 'End']} />
        <tbody>
          {sessions.map(({ handle, since, lastSeenAt, address, isThis }) => (
            <tr key={handle}>
              <td data-label="Signed in">{instantText(since)}</td>
              <td data-label="Last sign of life">{instantText(lastSeenAt)}</td>
              <td data-label="Address">{address ?? 'not known'}</td>
              <td>
                {isThis ? (
                  'this session'
                ) : (
                  <button className="button button-quiet" type="submit" name="handle" value={handle} disabled={busy}>
                    End
                    <span className="sr-only"> the session begun {instantText(since)}</span>
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Said outcome={outcome} done="Ended." />
    </form>
  )
}
