import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { decideProposal } from './decideProposal.ts'
import { planSha256 } from './planSha256.ts'
import { refusedFields } from './readWish.ts'
import { typedProblem } from './typedProblem.ts'

/** Refuses a proposal, with the reason its physician will read. It stays to be seen, and is never published. */
export async function refusePlan(
  call: Call,
  { version, reason }: { readonly version: number; readonly reason: string },
): Promise<Outcome<{ readonly version: number }>> {
  const refused = await refusedUnlessMay(call, 'plan.publish', 'follow-up plan')
  if (refused !== null) return refused
  const said = reason.trim()
  const problem = typedProblem(said)
  if (problem !== null) return refusedFields([{ field: 'reason', says: problem }])
  const outcome = await decideProposal(call, version, (_, { values }) => ({
    decision: { state: 'refused', reason: said },
    event: { action: 'plan-refused', version, sha256: planSha256(values) },
  }))
  return outcome.ok ? { ok: true, value: { version } } : outcome
}
