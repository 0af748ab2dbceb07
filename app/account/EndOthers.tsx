'use client'

import { Said } from '../_parts/Said.tsx'
import { type FormAct, useKeptForm } from '../_parts/useKeptForm.ts'

/** One button for all sessions but this. */
export function EndOthers({ others, act }: { readonly others: number; readonly act: FormAct<unknown> }) {
  const { send, busy, outcome } = useKeptForm(act)
  return (
    <form className="filters" action={send}>
      <button className="button" type="submit" disabled={busy || others === 0}>
        End all others
      </button>
      <Said outcome={outcome} done="All others have ended." />
    </form>
  )
}
