'use client'

import { Said } from '../_parts/Said.tsx'
import { usePlainForm } from '../_parts/usePlainForm.ts'
import { withdrawPlanProposal } from '../_server/actions.ts'

/** Takes one's own proposal back. */
export function WithdrawForm({ version }: { readonly version: number }) {
  const { outcome, busy, sent } = usePlainForm(withdrawPlanProposal)
  return (
    <form className="no-print" {...sent}>
      <input type="hidden" name="version" value={version} />
      <button className="button button-quiet" type="submit" disabled={busy}>
        Withdraw version {version}
      </button>
      <Said outcome={outcome} />
    </form>
  )
}
