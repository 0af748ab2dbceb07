import 'server-only'
import { exportLog, type Outcome } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { inPieces } from './inPieces.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { signedIn, stillHolds } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

function refusal({ kind, reason }: Extract<Outcome<never>, { ok: false }>): Response {
  return new Response(`${reason}\n`, { status: STATUS[kind], headers: { 'Content-Type': 'text/plain; charset=utf-8' } })
}

/** The log as FHIR R4 AuditEvent, as the page's own form asks for it; the export is in the log before its first byte is sent, and it breaks off with the session. */
export async function sendLog(request: Request): Promise<Response> {
  if (!isSameOrigin(request.headers)) return refusal({ ok: false, kind: 'not-allowed', reason: FROM_ELSEWHERE })
  const person = await signedIn()
  if (person === null) return refusal({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const file = await unlessUnavailable(() => exportLog(person.call, { from: null, to: null }))
  if (!file.ok) return refusal(file)
  const { fileName, chunks } = file.value
  return new Response(
    inPieces(chunks(), () => stillHolds(person)),
    {
      headers: {
        'Content-Type': 'application/fhir+ndjson; charset=utf-8',
        'Content-Disposition': `attachment; filename="${fileName}"`,
        'Cache-Control': 'private, no-store',
      },
    },
  )
}
