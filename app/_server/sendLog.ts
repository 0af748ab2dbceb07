import 'server-only'
import { exportLog, type Outcome } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { isSameOrigin } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

function refusal({ kind, reason }: Extract<Outcome<never>, { ok: false }>): Response {
  return new Response(`${reason}\n`, { status: STATUS[kind], headers: { 'Content-Type': 'text/plain; charset=utf-8' } })
}

/** Pieces are read as the browser takes them, so that however long the log is, little of it is in memory. What fails on the way breaks the download off. */
function streamed(chunks: Generator<string, void>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  return new ReadableStream<Uint8Array>({
    pull(stream) {
      const next = chunks.next()
      if (next.done === true) stream.close()
      else stream.enqueue(encoder.encode(next.value))
    },
    cancel() {
      chunks.return()
    },
  })
}

/** The log as FHIR R4 AuditEvent, as the page's own form asks for it; the export is in the log before its first byte is sent. */
export async function sendLog(request: Request): Promise<Response> {
  if (!isSameOrigin(request.headers)) return refusal({ ok: false, kind: 'not-allowed', reason: 'This request did not come from a page of Lowmark.' })
  const person = await signedIn()
  if (person === null) return refusal({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const file = await unlessUnavailable(() => exportLog(person.call, { from: null, to: null }))
  if (!file.ok) return refusal(file)
  const { fileName, chunks } = file.value
  return new Response(streamed(chunks()), {
    headers: {
      'Content-Type': 'application/fhir+ndjson; charset=utf-8',
      'Content-Disposition': `attachment; filename="${fileName}"`,
      'Cache-Control': 'private, no-store',
    },
  })
}
