import 'server-only'
import { readRoundNow } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

const NO_STORE = { 'Cache-Control': 'private, no-store' }

/** Tells a list that is worked through how far the round is, compared with the round it names. */
export async function tellRoundNow(since: number | null): Promise<Response> {
  const person = await signedIn()
  if (person === null) return new Response('Sign in first.\n', { status: 403, headers: NO_STORE })
  const outcome = await unlessUnavailable(() => readRoundNow(person.call, since))
  if (!outcome.ok) return new Response(`${outcome.reason}\n`, { status: STATUS[outcome.kind], headers: NO_STORE })
  return Response.json(outcome.value, { headers: NO_STORE })
}
