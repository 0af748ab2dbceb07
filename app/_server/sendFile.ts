import 'server-only'
import type { Call, ExportedFile, Outcome } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

function refusal({ kind, reason }: Extract<Outcome<never>, { ok: false }>): Response {
  return new Response(`${reason}\n`, { status: STATUS[kind], headers: { 'Content-Type': 'text/plain; charset=utf-8' } })
}

/** A file to save, as a form of our own page asks for it; whoever is in it is in the log before its first byte is sent. */
export async function sendFile(request: Request, type: string, make: (call: Call) => Promise<Outcome<ExportedFile>>): Promise<Response> {
  if (!isSameOrigin(request.headers)) return refusal({ ok: false, kind: 'not-allowed', reason: FROM_ELSEWHERE })
  const person = await signedIn()
  if (person === null) return refusal({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const file = await unlessUnavailable(() => make(person.call))
  if (!file.ok) return refusal(file)
  const { fileName, text } = file.value
  return new Response(text, {
    headers: {
      'Content-Type': type,
      'Content-Disposition': `attachment; filename="${fileName}"`,
      'Cache-Control': 'private, no-store',
    },
  })
}
