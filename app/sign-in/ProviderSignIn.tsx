'use client'

import { useProvider } from '../_parts/useProvider.ts'

/** The way through the clinic's single sign-on. `failed` is what to say to somebody who came back from it in vain. */
export function ProviderSignIn({ name, failed }: { readonly name: string; readonly failed: string | null }) {
  const { said, busy, go } = useProvider(failed)
  return (
    <>
      <p className={said === null ? '' : 'said said-wrong'} role="alert">
        {said}
      </p>
      <p className="field">
        <button className="button" type="button" disabled={busy} onClick={() => void go({})}>
          {busy ? `Going to ${name} ...` : `Continue with ${name}`}
        </button>
      </p>
      <p className="soft">Or with a password:</p>
    </>
  )
}
