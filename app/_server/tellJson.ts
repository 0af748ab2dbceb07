import 'server-only'
import type { Call, Outcome } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

const NO_STORE = { 'Cache-Control': 'private, no-store' }

/** What a page that stands on a screen asks for as data, for whoever is signed in; a refusal in words with its status. */
export async function tellJson<T>(ask: (call: Call) => Promise<Outcome<T>>): Promise<Response> {
  const person = await signedIn()
  if (person === null) return new Response('Sign in first.\n', { status: 403, headers: NO_STORE })
  const outcome = await unlessUnavailable(() => ask(person.call))
  if (!outcome.ok) return new Response(`${outcome.reason}\n`, { status: STATUS[outcome.kind], headers: NO_STORE })
  return Response.json(outcome.value, { headers: NO_STORE })
}
