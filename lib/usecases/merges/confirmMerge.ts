import type { Call, Outcome } from '../call.ts'
import { refuse } from '../decisions/decide.ts'
import { samePerson } from '../plan/decideProposal.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import { changeMerge, stillWaiting } from './changeMerge.ts'
import { identitySha256 } from './identitySha256.ts'
import { mergeObstacle } from './mergeObstacle.ts'

/**
 * Confirms a merge somebody else proposed: from now on both records are read as one patient, that of the kept record. Nothing stored of either is changed.
 * Refused where what identifies either has changed since it was proposed, because then nobody has looked at what would be joined.
 */
export async function confirmMerge(call: Call, { mergeId }: { readonly mergeId: number }): Promise<Outcome<{ readonly sentence: string }>> {
  const outcome = await changeMerge(call, mergeId, 'merge-confirmed', (tx, merge) => {
    const { fromId, intoId, proposedBy } = merge
    stillWaiting(merge)
    if (samePerson(proposedBy, call.actor.name)) refuse('invalid', `Merge ${mergeId} was proposed by ${proposedBy}: somebody else has to confirm it.`)
    const obstacle = mergeObstacle(tx, fromId, intoId)
    if (obstacle !== null) refuse(obstacle.kind, obstacle.reason)
    if (identitySha256(tx, fromId, intoId) !== merge.identitySha256)
      refuse('invalid', `What identifies these records has changed since merge ${mergeId} was proposed: decline it, look again, and propose it anew.`)
    tx.decideMerge({ id: mergeId, decision: 'confirmed', by: call.actor.name, at: call.now, reason: null })
    tx.removeStanding(fromId)
    // Counts in the kept record too, because the two are one from here on.
    tx.bumpRevision(fromId)
    keepStanding(tx, intoId, call.today)
  })
  if (!outcome.ok) return outcome
  const { fromId, intoId } = outcome.value
  return { ok: true, value: { sentence: `Record ${fromId} is read as part of patient ${intoId} from now on.` } }
}
