import 'server-only'
import { readRenewal } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

const NO_STORE = { 'Cache-Control': 'private, no-store' }

/** Tells whoever waits for a page how far the answers of today are. */
export async function tellRenewal(): Promise<Response> {
  const person = await signedIn()
  if (person === null) return new Response('Sign in first.\n', { status: 403, headers: NO_STORE })
  const outcome = await unlessUnavailable(() => readRenewal(person.call))
  if (!outcome.ok) return new Response(`${outcome.reason}\n`, { status: STATUS[outcome.kind], headers: NO_STORE })
  return Response.json(outcome.value, { headers: NO_STORE })
}
