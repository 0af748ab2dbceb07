import 'server-only'
import type { Outcome, Progress } from '../../lib/usecases/index.ts'
import { STATUS } from './ask.ts'
import { type SignedIn, stillHolds } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

/** What a page that waits for long work hears, a line of JSON each: how far it is, and at the end the answer. */
export type Line<T> =
  | { readonly kind: 'progress'; readonly step: string; readonly done: number; readonly of: number }
  | { readonly kind: 'answer'; readonly outcome: Outcome<T> }

/** A refusal as the only line, with its status. */
export function refusalInLines(outcome: Extract<Outcome<never>, { ok: false }>): Response {
  const line: Line<never> = { kind: 'answer', outcome }
  return new Response(`${JSON.stringify(line)}\n`, { status: STATUS[outcome.kind], headers: { 'Content-Type': 'application/x-ndjson' } })
}

interface Said {
  /** What is said where the work ended without an answer. */
  readonly broken: string
  /** What became of the work, said in place of its answer where the session ended meanwhile. */
  readonly unheard: string
}

/**
 * Answers with lines as the work goes on. The reader may leave: the work is done all the same. The answer is for whoever began it, as long as that
 * session holds: its row is looked up once more before the answer is said.
 */
export function answerInLines<T>(
  person: SignedIn,
  work: (onProgress: (progress: Progress) => void) => Promise<Outcome<T>>,
  { broken, unheard }: Said,
): Response {
  const encoder = new TextEncoder()
  const stream = new ReadableStream<Uint8Array>({
    async start(lines) {
      let heard = true
      const say = (line: Line<T>): void => {
        if (!heard) return
        try {
          lines.enqueue(encoder.encode(`${JSON.stringify(line)}\n`))
        } catch {
          heard = false
        }
      }
      const outcome = await unlessUnavailable(() => work((progress) => say({ kind: 'progress', ...progress }))).catch(
        (): Outcome<never> => ({ ok: false, kind: 'unavailable', reason: broken }),
      )
      const holds = await unlessUnavailable((): Outcome<boolean> => ({ ok: true, value: stillHolds(person) }))
      if (holds.ok && holds.value) say({ kind: 'answer', outcome })
      else say({ kind: 'answer', outcome: { ok: false, kind: 'not-allowed', reason: `You were signed out meanwhile. ${unheard}` } })
      if (heard) lines.close()
    },
  })
  return new Response(stream, { headers: { 'Content-Type': 'application/x-ndjson', 'X-Accel-Buffering': 'no' } })
}
