import type { OpenedEmergency, Outcome } from '../../../lib/usecases/index.ts'
import type { FormAct } from '../useKeptForm.ts'
import { OpenForm } from './OpenForm.tsx'

interface Props {
  readonly refusal: Extract<Outcome<never>, { ok: false }>
  /** What stands for the record in the address of its page. */
  readonly address: string
  /** Null for whoever may open none. */
  readonly open: FormAct<OpenedEmergency> | null
}

/** What stands in place of the page of a patient who is no longer followed: since when, what can be done, and for a physician the way in. */
export function ClosedRecord({ refusal, address, open }: Props) {
  return (
    <section className="narrow">
      <h1>Closed record</h1>
      <p className="notice notice-alert">{refusal.reason}</p>
      <p>
        The refusal is in the log. If the patient is followed here again, send a row of the patients file with the status followed and the day; the
        record is open from then on.
      </p>
      {open !== null && (
        <section className="notice" aria-labelledby="open">
          <h2 id="open">Open it as an emergency view</h2>
          <p>For 60 minutes, in this session, for reading only. Every such view is shown to the quality team.</p>
          <OpenForm open={open} address={address} />
        </section>
      )}
    </section>
  )
}
