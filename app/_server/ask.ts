import 'server-only'
import { redirect } from 'next/navigation'
import type { Call, Outcome } from '../../lib/usecases/index.ts'
import { answerWith } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

export const STATUS = { 'not-allowed': 403, 'not-found': 404, invalid: 422, unavailable: 503 } as const

/**
 * Asks a use case on behalf of whoever is signed in, and makes a refusal the status of the page (403, 404, 422, 503).
 * Sends a person who is not signed in to the sign-in page. The use case writes its log row before it answers, so nothing is shown without one.
 */
export async function ask<T>(question: (call: Call) => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
  const person = await signedIn()
  if (person === null) redirect('/sign-in')
  const outcome = await unlessUnavailable(() => question(person.call))
  if (!outcome.ok) await answerWith(STATUS[outcome.kind])
  return outcome
}
