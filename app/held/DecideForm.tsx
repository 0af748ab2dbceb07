'use client'

import { useActionState } from 'react'
import { Said } from '../_parts/Said.tsx'
import { decideHeld } from '../_server/actions.ts'

/** File the row as it now reads, or refuse it; either with a reason that is kept. */
export function DecideForm({ heldId }: { readonly heldId: number }) {
  const [outcome, decide, busy] = useActionState(decideHeld, null)
  if (outcome?.ok) return <Said outcome={outcome} done={outcome.value.sentence} />
  return (
    <form className="filters" action={decide}>
      <input type="hidden" name="heldId" value={heldId} />
      <div className="field grow">
        <label htmlFor={`reason-${heldId}`}>Reason (kept with the row)</label>
        <input className="input" id={`reason-${heldId}`} name="reason" required minLength={3} maxLength={500} autoComplete="off" />
      </div>
      <button className="button button-quiet" type="submit" name="decision" value="file" disabled={busy}>
        File it
      </button>
      <button className="button button-quiet" type="submit" name="decision" value="refuse" disabled={busy}>
        Refuse it
      </button>
      <Said outcome={outcome} />
    </form>
  )
}
