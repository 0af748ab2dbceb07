'use client'

import { useId } from 'react'

/** What shows once more that it is the person of the account. Never filled in again after a refusal: a password does not belong in the page. */
export function ProofFields({ codeSays }: { readonly codeSays: string | null }) {
  const id = useId()
  return (
    <>
      <div className="field">
        <label htmlFor={`${id}-password`}>Current password</label>
        <input className="input" id={`${id}-password`} name="password" type="password" autoComplete="current-password" required maxLength={1000} />
      </div>
      {codeSays === null ? (
        <input type="hidden" name="code" value="" />
      ) : (
        <div className="field">
          <label htmlFor={`${id}-code`}>{codeSays}</label>
          <input
            className="input"
            id={`${id}-code`}
            name="code"
            autoComplete="one-time-code"
            autoCapitalize="none"
            spellCheck={false}
            required
            maxLength={100}
          />
        </div>
      )}
    </>
  )
}
