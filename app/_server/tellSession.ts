import 'server-only'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { sessionTold } from './session.ts'
import { isDatabaseFault } from './unavailable.ts'

/** What a page hears of the session it was opened in: whose it is, and for how many milliseconds it still holds. */
export type SessionAnswer =
  | { readonly open: false }
  | { readonly open: true; readonly name: string; readonly role: string; readonly idleMs: number; readonly longestMs: number }

const NO_STORE = { 'Cache-Control': 'private, no-store' }

async function answer(alive: boolean): Promise<Response> {
  try {
    const ends = await sessionTold({ alive })
    const told: SessionAnswer = ends === null ? { open: false } : { open: true, ...ends }
    return Response.json(told, { headers: NO_STORE })
  } catch (error) {
    if (!isDatabaseFault(error)) throw error
    return new Response('The database cannot be read now.\n', { status: 503, headers: NO_STORE })
  }
}

/** Tells a page when its session ends. No sign of life, so that a page which is merely open does not keep its session. */
export function tellSession(): Promise<Response> {
  return answer(false)
}

/** Takes a person's sign of life, from a page of our own only, and tells when the session ends then. */
export async function keepSession(request: Request): Promise<Response> {
  if (isSameOrigin(request.headers)) return answer(true)
  return new Response(`${FROM_ELSEWHERE}\n`, { status: 403, headers: NO_STORE })
}
