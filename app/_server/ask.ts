import 'server-only'
import { redirect } from 'next/navigation'
import type { Call, Outcome } from '../../lib/usecases/index.ts'
import { answerWith } from './request.ts'
import { present, type SignedIn, signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

export const STATUS = { 'not-allowed': 403, 'not-found': 404, invalid: 422, unavailable: 503 } as const

async function answerOf<T>(person: SignedIn, question: (call: Call) => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await unlessUnavailable(() => question(person.call))
  if (!outcome.ok) await answerWith(STATUS[outcome.kind])
  return outcome
}

/**
 * Asks a use case on behalf of whoever is signed in, and makes a refusal the status of the page (403, 404, 422, 503).
 * Sends a person who is not signed in to the sign-in page, and one who has to set up a second factor or change the password first to the own account.
 * The use case writes its log row before it answers, so nothing is shown without one.
 */
export async function ask<T>(question: (call: Call) => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
  const person = await signedIn()
  if (person === null) redirect((await present()) === null ? '/sign-in' : '/account')
  return answerOf(person, question)
}

/** The same for what the own account page shows: the one page that is open to everybody who is signed in. */
export async function askOwn<T>(question: (call: Call) => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
  const person = await present()
  if (person === null) redirect('/sign-in')
  return answerOf(person, question)
}
