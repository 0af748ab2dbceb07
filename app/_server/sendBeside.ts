import 'server-only'
import { type Outcome, openBesideAt } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

function answer(outcome: Outcome<unknown>): Response {
  return Response.json(outcome, { status: outcome.ok ? 200 : STATUS[outcome.kind], headers: { 'Cache-Control': 'private, no-store' } })
}

/** One patient for the panel beside the list, as data; opened in the log before its first byte is sent. */
export async function sendBeside(address: string): Promise<Response> {
  const person = await signedIn()
  if (person === null) return answer({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  return answer(await unlessUnavailable(() => openBesideAt(person.call, address)))
}
