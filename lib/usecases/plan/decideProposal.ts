import type { PlanDecision, StoredPlanVersion, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** What is decided about a proposal, with its log row; or why it cannot be. */
export type Decided = { readonly decision: PlanDecision['decision']; readonly event: TrailEvent } | Refusal

class NotDecided extends Error {
  readonly refusal: Refusal

  constructor(refusal: Refusal) {
    super(refusal.reason)
    this.refusal = refusal
  }
}

export function notDecided(reason: string): Refusal {
  return { ok: false, kind: 'invalid', reason }
}

export function samePerson(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase()
}

/** Finds a waiting proposal, decides on it and logs that, in one write. A refusal inside leaves everything as it was. */
export async function decideProposal(
  call: Call,
  version: number,
  decide: (tx: Tx, proposal: StoredPlanVersion) => Decided,
): Promise<Outcome<StoredPlanVersion>> {
  try {
    const value = await call.store.record(call, (tx) => {
      const proposal = tx.planVersion(version)
      if (proposal === null) throw new NotDecided({ ok: false, kind: 'not-found', reason: `No version of the plan has the number ${version}.` })
      if (proposal.state !== 'proposed')
        throw new NotDecided(notDecided(`Version ${version} was ${proposal.state} by ${proposal.decidedBy} already.`))
      const decided = decide(tx, proposal)
      if ('ok' in decided) throw new NotDecided(decided)
      tx.decidePlanVersion({ version, by: call.actor.name, at: call.now, decision: decided.decision })
      return { value: tx.planVersion(version) ?? proposal, events: [decided.event] }
    })
    return { ok: true, value }
  } catch (error) {
    if (error instanceof NotDecided) return error.refusal
    throw error
  }
}
