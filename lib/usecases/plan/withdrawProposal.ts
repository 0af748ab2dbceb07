import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { decideProposal, notDecided, samePerson } from './decideProposal.ts'
import { planSha256 } from './planSha256.ts'

/** Takes one's own proposal back. It stays to be seen, and is never published. */
export async function withdrawProposal(call: Call, { version }: { readonly version: number }): Promise<Outcome<{ readonly version: number }>> {
  const refused = await refusedUnlessMay(call, 'plan.propose', 'follow-up plan')
  if (refused !== null) return refused
  const outcome = await decideProposal(call, version, (_, { proposedBy, values }) => {
    if (!samePerson(proposedBy, call.actor.name)) return notDecided(`Version ${version} was proposed by ${proposedBy}, who alone can withdraw it.`)
    return { decision: { state: 'withdrawn' }, event: { action: 'plan-withdrawn', version, sha256: planSha256(values) } }
  })
  return outcome.ok ? { ok: true, value: { version } } : outcome
}
