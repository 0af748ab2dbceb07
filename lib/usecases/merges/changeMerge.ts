import type { StoredMerge, Tx } from '../../store/index.ts'
import { canonicalSha256, type TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'

type Action = 'merge-confirmed' | 'merge-declined' | 'merge-ended'

/** How the log tells of a merge as it stands now, and as it stood. */
export function mergeEvent(action: Action | 'merge-proposed', merge: StoredMerge, before: StoredMerge | null): TrailEvent {
  const { id, intoId, fromId } = merge
  return { action, mergeId: id, patientId: intoId, fromId, before: before === null ? null : canonicalSha256(before), after: canonicalSha256(merge) }
}

/**
 * May, then under the write lock: finds the merge, changes it and logs that, in one write. `change` refuses with `refuse`, and then everything stays as it
 * was.
 */
export async function changeMerge(
  call: Call,
  mergeId: number,
  action: Action,
  change: (tx: Tx, merge: StoredMerge) => void,
): Promise<Outcome<StoredMerge>> {
  const refused = await refusedUnlessMay(call, 'patient.merge', `merge ${mergeId}`)
  if (refused !== null) return refused
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const before = tx.merge(mergeId) ?? refuse('not-found', `No merge has the number ${mergeId}.`)
      change(tx, before)
      const after = tx.merge(mergeId) ?? before
      return { value: after, events: [mergeEvent(action, after, before)] }
    }),
  )
}

/** Refuses a merge that no longer waits. */
export function stillWaiting({ id, decision, decidedBy }: StoredMerge): void {
  if (decision !== null) refuse('invalid', `Merge ${id} was ${decision} by ${decidedBy} already.`)
}
