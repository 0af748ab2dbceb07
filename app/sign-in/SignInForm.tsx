'use client'

import { signIn } from 'next-auth/react'
import { type SubmitEvent, useState } from 'react'
import { leaving } from '../_parts/underway/leaving.ts'

/** Name, password, and a code for whoever set up a second factor. What is wrong with them is said in one sentence that is the same for an unknown name. */
export function SignInForm() {
  const [said, setSaid] = useState<string | null>(null)
  const [busy, setBusy] = useState(false)

  async function submit(event: SubmitEvent<HTMLFormElement>): Promise<void> {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    setBusy(true)
    setSaid(null)
    const typed = (field: string): string => String(form.get(field))
    const answer = await signIn('credentials', { redirect: false, name: typed('name'), password: typed('password'), code: typed('code') })
    if (answer?.ok) {
      // A whole new page: nothing of the signed-out state stays in memory.
      leaving()
      window.location.assign('/')
      return
    }
    setBusy(false)
    setSaid(answer?.error ?? 'No answer came. Try again.')
  }

  return (
    <form method="post" onSubmit={(event) => void submit(event)}>
      <div className="field">
        <label htmlFor="name">Name</label>
        <input className="input" id="name" name="name" autoComplete="username" autoCapitalize="none" spellCheck={false} required maxLength={100} />
      </div>
      <div className="field">
        <label htmlFor="password">Password</label>
        <input className="input" id="password" name="password" type="password" autoComplete="current-password" required maxLength={1000} />
      </div>
      <div className="field">
        <label htmlFor="code">Code of your second factor (if you have set one up)</label>
        <input className="input" id="code" name="code" autoComplete="one-time-code" autoCapitalize="none" spellCheck={false} maxLength={100} />
      </div>
      <p className={said === null ? '' : 'said said-wrong'} role="alert">
        {said}
      </p>
      <button className="button" type="submit" disabled={busy}>
        {busy ? 'Signing in ...' : 'Sign in'}
      </button>
      <noscript>
        <p className="notice">Signing in needs JavaScript.</p>
      </noscript>
    </form>
  )
}
