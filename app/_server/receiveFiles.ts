import 'server-only'
import { acceptFilesApart, type FileReport, type Outcome, type Progress, refusedUnlessMay } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { readUpload } from './readUpload.ts'
import { isSameOrigin } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

/** What the page that sent files hears, a line each: how far it is, and at the end what became of them. */
export type IntakeLine =
  | { readonly kind: 'progress'; readonly step: string; readonly done: number; readonly of: number }
  | { readonly kind: 'answer'; readonly outcome: Outcome<readonly FileReport[]> }

// A file of a million bad rows must not become an answer of a million sentences; the report's own page turns through them all.
const PROBLEMS_SENT = 200

function shortened(outcome: Outcome<readonly FileReport[]>): Outcome<readonly FileReport[]> {
  if (!outcome.ok) return outcome
  return { ok: true, value: outcome.value.map((report) => ({ ...report, problems: report.problems.slice(0, PROBLEMS_SENT) })) }
}

function refusal(outcome: Extract<Outcome<never>, { ok: false }>): Response {
  const line: IntakeLine = { kind: 'answer', outcome }
  return new Response(`${JSON.stringify(line)}\n`, { status: STATUS[outcome.kind], headers: { 'Content-Type': 'application/x-ndjson' } })
}

/** Reads what was sent and takes it in, apart from the process that serves pages; answers with lines of JSON as it goes. */
export async function receiveFiles(request: Request): Promise<Response> {
  if (!isSameOrigin(request.headers)) return refusal({ ok: false, kind: 'not-allowed', reason: 'This request did not come from a page of Lowmark.' })
  const person = await signedIn()
  if (person === null) return refusal({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const refused = await refusedUnlessMay(person.call, 'intake.write', 'upload')
  if (refused !== null) return refusal(refused)
  const files = await readUpload(request)
  if (!files.ok) return refusal(files)
  const source = request.headers.get('x-lowmark-source')
  const dryRun = request.headers.get('x-lowmark-dry-run') === 'yes'

  const encoder = new TextEncoder()
  const stream = new ReadableStream<Uint8Array>({
    async start(lines) {
      // The reader may be gone; the files are taken in all the same, and their report has its own page.
      let heard = true
      const say = (line: IntakeLine): void => {
        if (!heard) return
        try {
          lines.enqueue(encoder.encode(`${JSON.stringify(line)}\n`))
        } catch {
          heard = false
        }
      }
      const options = {
        source: source === null || source === '' ? null : decodeURIComponent(source).slice(0, 100),
        dryRun,
        onProgress: (progress: Progress) => say({ kind: 'progress', ...progress }),
      }
      const outcome = await unlessUnavailable(() => acceptFilesApart(person.call, files.value, options)).catch(
        (): Outcome<never> => ({
          ok: false,
          kind: 'unavailable',
          reason: 'The files could not be read to the end. Nothing of an unfinished file was filed.',
        }),
      )
      say({ kind: 'answer', outcome: shortened(outcome) })
      if (heard) lines.close()
    },
  })
  return new Response(stream, { headers: { 'Content-Type': 'application/x-ndjson', 'X-Accel-Buffering': 'no' } })
}
