'use client'

import { useActionState } from 'react'
import { Said } from '../_parts/Said.tsx'
import { withdrawPlanProposal } from '../_server/actions.ts'

/** Takes one's own proposal back. */
export function WithdrawForm({ version }: { readonly version: number }) {
  const [outcome, withdraw, busy] = useActionState(withdrawPlanProposal, null)
  return (
    <form className="no-print" action={withdraw}>
      <input type="hidden" name="version" value={version} />
      <button className="button button-quiet" type="submit" disabled={busy}>
        Withdraw version {version}
      </button>
      <Said outcome={outcome} />
    </form>
  )
}
