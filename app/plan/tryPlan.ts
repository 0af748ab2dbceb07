import type { Outcome, TriedPlan } from '../../lib/usecases/index.ts'
import { askInLines } from '../_parts/askInLines.ts'
import type { Step } from '../_parts/Progress.tsx'

/** What a page says where the answer of an action never came: it may have been done all the same. */
export const UNHEARD: Outcome<never> = {
  ok: false,
  kind: 'unavailable',
  reason: 'The connection broke before the answer came. Load the page again to see whether it was done.',
}

/** Sends the form to be tried and listens to how far that is. */
export function tryPlan(form: FormData, isProposal: boolean, onStep: (step: Step) => void): Promise<Outcome<TriedPlan>> {
  return askInLines(isProposal ? '/plan/try?of=proposal' : '/plan/try', form, onStep)
}
