import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { mergeEvent } from './changeMerge.ts'
import { identitySha256 } from './identitySha256.ts'
import { mergeObstacle } from './mergeObstacle.ts'

export interface MergeWish {
  /** The record to be joined, and the one that is kept. */
  readonly fromId: string
  readonly intoId: string
  readonly reason: string
}

/** Proposes to read two records as those of one person, with the reason. Nothing comes of it before somebody else confirms. Answers its number. */
export async function proposeMerge(call: Call, wish: MergeWish): Promise<Outcome<{ readonly mergeId: number }>> {
  const refused = await refusedUnlessMay(call, 'patient.merge', 'patients')
  if (refused !== null) return refused
  const [fromId, intoId] = [wish.fromId.trim(), wish.intoId.trim()]
  const typed = typedText(wish.reason, 'The reason')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const obstacle = mergeObstacle(tx, fromId, intoId)
      if (obstacle !== null) refuse(obstacle.kind, obstacle.reason)
      const waiting = tx.mergesOf(fromId).find((merge) => merge.decision === null && [merge.fromId, merge.intoId].includes(intoId))
      if (waiting !== undefined)
        refuse('invalid', `Merge ${waiting.id} of these two records, proposed by ${waiting.proposedBy}, waits to be confirmed already.`)
      const mergeId = tx.insertMerge({
        fromId,
        intoId,
        proposedBy: call.actor.name,
        proposedAt: call.now,
        reason: typed.text,
        identitySha256: identitySha256(tx, fromId, intoId),
      })
      const merge = tx.merge(mergeId) ?? refuse('unavailable', 'The proposal could not be read back.')
      return { value: { mergeId }, events: [mergeEvent('merge-proposed', merge, null)] }
    }),
  )
}
