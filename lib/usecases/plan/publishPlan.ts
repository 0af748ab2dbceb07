import { type FollowUpPlan, lastPlan, valuesOf } from '../../plan/index.ts'
import type { StoredPlanVersion } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { readBeginning } from './beginsOn.ts'
import { decideProposal, notDecided, samePerson } from './decideProposal.ts'
import { planSha256 } from './planSha256.ts'
import { refusedFields } from './readWish.ts'

/** Why this proposal cannot be published by this person, whatever the day; null where it can. */
export function whyNotPublished(
  { basedOn, proposedBy }: Pick<StoredPlanVersion, 'basedOn' | 'proposedBy'>,
  last: FollowUpPlan,
  actor: string,
): string | null {
  if (samePerson(proposedBy, actor)) return 'You proposed it yourself: somebody else has to publish it.'
  if (basedOn === Number(last.version)) return null
  return `It was drawn from version ${basedOn}, and version ${last.version} was published since: publishing it would take back what that one changed. Refuse it, so that it can be proposed anew.`
}

/**
 * Publishes a proposal: it is in force from its first day on. Standings are renewed as soon as somebody looks, or at once by `renewApart`; until
 * its first day nothing changes.
 */
export async function publishPlan(
  call: Call,
  { version, from }: { readonly version: number; readonly from: string },
): Promise<Outcome<{ readonly version: number; readonly from: Day }>> {
  const refused = await refusedUnlessMay(call, 'plan.publish', 'follow-up plan')
  if (refused !== null) return refused
  const outcome = await decideProposal(call, version, (tx, proposal) => {
    const last = lastPlan(tx.publishedPlans())
    const why = whyNotPublished(proposal, last, call.actor.name)
    if (why !== null) return notDecided(why)
    const begins = readBeginning(from, last, call.today)
    if ('problem' in begins) return refusedFields([{ field: 'from', says: begins.problem }])
    const hashes = { beforeSha256: planSha256(valuesOf(last)), afterSha256: planSha256(proposal.values) }
    return {
      decision: { state: 'published', from: begins.day },
      event: { action: 'plan-published', version, from: begins.day, ...hashes },
    }
  })
  return outcome.ok ? { ok: true, value: { version, from: outcome.value.from } } : outcome
}
