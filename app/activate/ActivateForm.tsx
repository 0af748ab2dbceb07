'use client'

import { Said } from '../_parts/Said.tsx'
import { usePlainForm } from '../_parts/usePlainForm.ts'
import { chooseFirstPassword } from '../_server/actions.ts'

const FIELDS = [
  { name: 'name', says: 'Name', type: 'text', complete: 'username' },
  { name: 'code', says: 'One-time code', type: 'text', complete: 'one-time-code' },
  { name: 'password', says: 'New password', type: 'password', complete: 'new-password' },
  { name: 'again', says: 'New password again', type: 'password', complete: 'new-password' },
] as const

export function ActivateForm() {
  const { outcome, busy, sent } = usePlainForm(chooseFirstPassword)
  if (outcome?.ok) {
    return (
      <p className="said" role="status">
        Your password is set. <a href="/sign-in">Sign in</a>
      </p>
    )
  }
  return (
    <form {...sent}>
      {FIELDS.map(({ name, says, type, complete }) => (
        <div className="field" key={name}>
          <label htmlFor={name}>{says}</label>
          <input
            className="input"
            id={name}
            name={name}
            type={type}
            autoComplete={complete}
            autoCapitalize="none"
            spellCheck={false}
            required
            maxLength={1000}
          />
        </div>
      ))}
      <Said outcome={outcome} />
      <button className="button" type="submit" disabled={busy}>
        Set the password
      </button>
    </form>
  )
}
