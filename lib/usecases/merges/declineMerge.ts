import type { Call, Outcome } from '../call.ts'
import { refuse } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { changeMerge, stillWaiting } from './changeMerge.ts'

export interface DeclineWish {
  readonly mergeId: number
  /** Why; may be left empty, as where somebody takes a proposal of their own back. */
  readonly reason: string
}

/** Declines a merge that waits; whoever proposed it takes it back by the same words. Both records stay what they are. */
export async function declineMerge(call: Call, { mergeId, reason }: DeclineWish): Promise<Outcome<{ readonly sentence: string }>> {
  const outcome = await changeMerge(call, mergeId, 'merge-declined', (tx, merge) => {
    stillWaiting(merge)
    const typed = reason.trim() === '' ? { text: null } : typedText(reason, 'The reason')
    if ('reason' in typed) refuse('invalid', typed.reason)
    tx.decideMerge({ id: mergeId, decision: 'declined', by: call.actor.name, at: call.now, reason: typed.text })
  })
  return outcome.ok ? { ok: true, value: { sentence: `Merge ${mergeId} is declined; both records stay as they are.` } } : outcome
}
