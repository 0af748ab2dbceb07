'use client'

import { useRouter } from 'next/navigation'
import { useEffect } from 'react'
import type { EmergencyBand } from '../../../lib/usecases/index.ts'
import { Said } from '../Said.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'
import './emergency.css'

/** Where the browser goes when a view has ended, so that nothing of the record stays on the screen. */
const AWAY = '/emergency'

/** Above a closed record that is open in an emergency view: until when and why, also on paper. Leaves the page when the view ends. */
export function Band({ view, end }: { readonly view: EmergencyBand; readonly end: FormAct<null> }) {
  const { emergencyId, reason, until, secondsLeft } = view
  const form = useKeptForm(end)
  const { outcome, busy } = form
  const router = useRouter()
  useEffect(() => {
    if (outcome?.ok) router.replace(AWAY)
  }, [outcome, router])
  useEffect(() => {
    // The server has closed the record by then; this only clears the screen. A second later, because clocks round.
    const over = setTimeout(() => router.replace(AWAY), (secondsLeft + 1) * 1000)
    return () => clearTimeout(over)
  }, [secondsLeft, router])
  return (
    <aside className="emergency" aria-label="Emergency view">
      <p>
        <strong>Emergency view until {until}</strong> - <bdi>{reason}</bdi> - shown to quality
      </p>
      <form className="no-print" action={form.send}>
        <input type="hidden" name="emergencyId" value={emergencyId} />
        <button className="button button-quiet" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
          End it now
          <span className={busy ? 'pending' : ''} />
        </button>
        {outcome?.ok === false && <Said outcome={outcome} />}
      </form>
    </aside>
  )
}
