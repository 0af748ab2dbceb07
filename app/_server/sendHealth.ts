import 'server-only'
import { createHash, timingSafeEqual } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { type Health, healthOf } from '../../lib/usecases/index.ts'
import { store } from './store.ts'

/** An answer serves everybody who asks within this time: asking without a name must not be a way to load the database. */
const KEPT_MS = 10_000
const LEAST_TOKEN = 32

let kept: { readonly until: number; readonly health: Promise<Health | null> } | null = null

/** What was found at most ten seconds ago; null where the database cannot be asked at all. */
function recentHealth(): Promise<Health | null> {
  const now = Date.now()
  if (kept === null || kept.until <= now) {
    const health = store()
      .then((open) => healthOf(open, new Date(now).toISOString()))
      .catch(() => null)
    kept = { until: now + KEPT_MS, health }
  }
  return kept.health
}

/** The token a monitor must bring, read afresh so that it can be changed without a start; null where none is set that is long enough. */
async function tokenOf(path: string | undefined): Promise<string | null> {
  if (path === undefined || path === '') return null
  const text = await readFile(/* turbopackIgnore: true */ path, 'utf8').catch(() => '')
  return text.trim().length >= LEAST_TOKEN ? text.trim() : null
}

/** Compared by digests, so that neither the length nor how much of it fits can be told from the time it takes. */
function isSame(given: string, token: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(given), digest(token))
}

function answer(status: number, body: unknown, headers: Readonly<Record<string, string>> = {}): Response {
  return Response.json(body, { status, headers: { 'Cache-Control': 'no-store', ...headers } })
}

/**
 * The health of the program as JSON: 200, or 503 where something fails. Without a token it says that and nothing else; names of sources and times are
 * for those who have it (RFC 6750, section 2.1; 401 for a wrong one).
 */
export async function sendHealth(request: Request): Promise<Response> {
  const given = /^Bearer +(\S+)$/i.exec(request.headers.get('authorization') ?? '')?.[1] ?? null
  if (request.headers.get('authorization') !== null) {
    const token = await tokenOf(process.env.LOWMARK_HEALTH_TOKEN_FILE)
    if (given === null || token === null || !isSame(given, token))
      return answer(401, { error: 'This is not the token for the details.' }, { 'WWW-Authenticate': 'Bearer' })
  }
  const health = await recentHealth()
  const status = health === null || health.status === 'fail' ? 503 : 200
  if (given === null || health === null) return answer(status, { status: status === 200 ? 'ok' : 'fail' })
  return answer(status, health)
}
