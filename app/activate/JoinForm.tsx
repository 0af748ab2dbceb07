'use client'

import type { SubmitEvent } from 'react'
import { useProvider } from '../_parts/useProvider.ts'

const FIELDS = [
  { name: 'name', says: 'Name', complete: 'username' },
  { name: 'code', says: 'One-time code', complete: 'one-time-code' },
] as const

/** Joins the account of a one-time code to whoever then signs in with the provider. No password is needed. */
export function JoinForm({ provider }: { readonly provider: string }) {
  const { said, busy, go } = useProvider(null)
  function submit(event: SubmitEvent<HTMLFormElement>): void {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    void go({ name: String(form.get('name')), code: String(form.get('code')) })
  }
  return (
    <section className="notice" aria-labelledby="join">
      <h2 id="join">Or join {provider}</h2>
      <p className="soft">
        With the same one-time code you can sign in through {provider} from now on, without a password here. You are asked to sign in there; whoever
        does so is joined to this account.
      </p>
      <form method="post" onSubmit={submit}>
        {FIELDS.map(({ name, says, complete }) => (
          <div className="field" key={name}>
            <label htmlFor={`join-${name}`}>{says}</label>
            <input
              className="input"
              id={`join-${name}`}
              name={name}
              autoComplete={complete}
              autoCapitalize="none"
              spellCheck={false}
              required
              maxLength={100}
            />
          </div>
        ))}
        <p className={said === null ? '' : 'said said-wrong'} role="alert">
          {said}
        </p>
        <button className="button" type="submit" disabled={busy}>
          {busy ? `Going to ${provider} ...` : `Join ${provider}`}
        </button>
      </form>
    </section>
  )
}
