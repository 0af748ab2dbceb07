import 'server-only'
import type { Permission } from '../../lib/access/index.ts'
import { type Outcome, refusedUnlessMay } from '../../lib/usecases/index.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { type SignedIn, signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

/** Who asks for long work from one of our own pages and may. Who may not is refused, and in the log, before anything that was sent is read. */
export async function askerInLines(request: Request, permission: Permission, what: string): Promise<Outcome<SignedIn>> {
  if (!isSameOrigin(request.headers)) return { ok: false, kind: 'not-allowed', reason: FROM_ELSEWHERE }
  const person = await signedIn()
  if (person === null) return { ok: false, kind: 'not-allowed', reason: 'Sign in first.' }
  return unlessUnavailable(async () => (await refusedUnlessMay(person.call, permission, what)) ?? { ok: true, value: person })
}

/** The form of a request, of so many bytes at the most. */
export async function formInLines(request: Request, mostBytes: number): Promise<Outcome<FormData>> {
  const length = Number(request.headers.get('content-length') ?? Number.NaN)
  if (!(length <= mostBytes)) return { ok: false, kind: 'invalid', reason: 'More was sent than the form can hold.' }
  const form = await request.formData().catch(() => null)
  return form === null ? { ok: false, kind: 'invalid', reason: 'What was sent is no form.' } : { ok: true, value: form }
}
