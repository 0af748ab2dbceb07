import 'server-only'
import { refresh } from 'next/cache'
import type { Outcome } from '../../lib/usecases/index.ts'
import type { TwoSteps } from './twoSteps.ts'

/** The page behind a form of two steps is drawn again once something is kept, or where it was refused or out of date; never for a look alone. */
export async function drawnAgain<T>(answer: Promise<Outcome<TwoSteps<T>>>): Promise<Outcome<TwoSteps<T>>> {
  const outcome = await answer
  const isLook = outcome.ok && outcome.value.step === 'shown' && outcome.value.because === null
  if (!isLook && (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found')) refresh()
  return outcome
}
