import type { Call, Outcome } from '../call.ts'
import { refuse } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import { changeMerge } from './changeMerge.ts'

export interface EndWish {
  readonly mergeId: number
  readonly reason: string
}

/**
 * Ends a merge, with the reason: each record is read alone again, exactly as it would stand had they never been joined. One person does, since a wrong merge
 * shows another person's results and should not wait.
 */
export async function endMerge(call: Call, { mergeId, reason }: EndWish): Promise<Outcome<{ readonly sentence: string }>> {
  const outcome = await changeMerge(call, mergeId, 'merge-ended', (tx, { fromId, intoId }) => {
    const typed = typedText(reason, 'The reason')
    if ('reason' in typed) refuse('invalid', typed.reason)
    // While it is in force, so that the change counts in both records.
    tx.bumpRevision(fromId)
    if (!tx.endMerge({ id: mergeId, by: call.actor.name, at: call.now, reason: typed.text })) refuse('invalid', `Merge ${mergeId} is not in force.`)
    keepStanding(tx, fromId, call.today)
    keepStanding(tx, intoId, call.today)
  })
  if (!outcome.ok) return outcome
  const { fromId, intoId } = outcome.value
  return { ok: true, value: { sentence: `Records ${fromId} and ${intoId} are two patients again.` } }
}
