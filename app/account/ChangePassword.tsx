'use client'

import { useId } from 'react'
import { Said } from '../_parts/Said.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { changeOwnPassword } from '../_server/accountActs.ts'
import { ProofFields } from './ProofFields.tsx'

const NEW = [
  { name: 'chosen', says: 'New password' },
  { name: 'again', says: 'New password again' },
] as const

interface Props {
  readonly leastCharacters: number
  readonly asksForCode: boolean
}

/** Another password for the own account. */
export function ChangePassword({ leastCharacters, asksForCode }: Props) {
  const id = useId()
  const { send, outcome, busy } = useKeptForm(changeOwnPassword)
  return (
    <section className="no-print" aria-labelledby="password">
      <h2 id="password">Password</h2>
      <p>
        At least {leastCharacters} characters; several words in a row are easy to keep in mind. There is no rule about signs or capitals, and it does
        not expire. Your other sessions end.
      </p>
      <form action={send} aria-label="Change the password">
        <ProofFields codeSays={asksForCode ? 'Code of the app, or a recovery code' : null} />
        {NEW.map(({ name, says }) => (
          <div className="field" key={name}>
            <label htmlFor={`${id}-${name}`}>{says}</label>
            <input className="input" id={`${id}-${name}`} name={name} type="password" autoComplete="new-password" required maxLength={1000} />
          </div>
        ))}
        <Said outcome={outcome} done="Your password is changed, and your other sessions have ended." />
        <button className="button" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
          Change the password
        </button>
      </form>
    </section>
  )
}
