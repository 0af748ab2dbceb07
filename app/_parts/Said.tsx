import type { ReactNode } from 'react'

type Answered = { readonly ok: true } | { readonly ok: false; readonly reason: string }

/** What an action answered: its reason where it was refused, `done` where it was not. Read out when it appears. */
export function Said({ outcome, done = null }: { readonly outcome: Answered | null; readonly done?: ReactNode }) {
  if (outcome === null) return <p aria-live="polite" />
  return (
    <p className={outcome.ok ? 'said' : 'said said-wrong'} role={outcome.ok ? 'status' : 'alert'}>
      {outcome.ok ? done : outcome.reason}
    </p>
  )
}
