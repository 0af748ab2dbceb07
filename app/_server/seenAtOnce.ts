import 'server-only'
import { refresh } from 'next/cache'
import type { Outcome } from '../../lib/usecases/index.ts'

/** Draws the page behind a form again once what it asked is done. */
export async function seenAtOnce<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok) refresh()
  return outcome
}
