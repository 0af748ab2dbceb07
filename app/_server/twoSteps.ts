import 'server-only'
import { type Call, type Considered, type Outcome, type Preview, previewConsequence } from '../../lib/usecases/index.ts'

/** What a form of two steps answers: what it would do, or that it is done. */
export type TwoSteps<T> =
  | { readonly step: 'shown'; readonly preview: Preview; readonly because: string | null }
  | { readonly step: 'kept'; readonly value: T }

/**
 * First shows what would happen, then keeps it: `shown` is empty at first, and the stamp of what was shown when it is kept. Where that no longer holds,
 * nothing is kept and it is shown anew with why. A script that was shown nothing sends no `shown`.
 */
export async function inTwoSteps<T>(
  call: Call,
  considered: Considered,
  shown: string | undefined,
  keep: (shown: string | undefined) => Promise<Outcome<T>>,
): Promise<Outcome<TwoSteps<T>>> {
  let because: string | null = null
  if (shown !== '') {
    const outcome = await keep(shown)
    if (outcome.ok) return { ok: true, value: { step: 'kept', value: outcome.value } }
    if (outcome.stale === undefined) return outcome
    because = outcome.reason
  }
  const preview = await previewConsequence(call, considered)
  return preview.ok ? { ok: true, value: { step: 'shown', preview: preview.value, because } } : preview
}
