import 'server-only'
import { readSource } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

const TEXT = { 'content-type': 'text/plain; charset=utf-8' }

/** What is known of a source as the file that can be loaded again. */
export async function profileFile(source: string): Promise<Response> {
  const person = await signedIn()
  if (person === null) return new Response('Sign in first.', { status: 403, headers: TEXT })
  const outcome = await unlessUnavailable(() => readSource(person.call, source))
  if (!outcome.ok) return new Response(outcome.reason, { status: STATUS[outcome.kind], headers: TEXT })
  return new Response(`${JSON.stringify(outcome.value.file, null, 2)}\n`, {
    headers: { 'content-type': 'application/json; charset=utf-8', 'content-disposition': 'attachment; filename="source-profile.json"' },
  })
}
