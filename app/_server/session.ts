import 'server-only'
import { cookies } from 'next/headers'
import { decode } from 'next-auth/jwt'
import { cache } from 'react'
import { type Confinement, confinementOf, type Role, type SignInMeans } from '../../lib/access/index.ts'
import { type Call, clinicDay, factorPolicy, readSession, type SessionEnds, sessionEnds, signOfLife } from '../../lib/usecases/index.ts'
import { answerWith, requestFacts } from './request.ts'
import { SESSION_COOKIE } from './signInOptions.ts'
import { store } from './store.ts'
import { isDatabaseFault } from './unavailable.ts'

export interface SignedIn {
  readonly name: string
  readonly role: Role
  readonly sessionId: string
  readonly means: SignInMeans
  /** What has to be done on the own account page before anything else is open; null where nothing has. */
  readonly confinement: Confinement | null
  readonly call: Call
}

/** The session id the cookie carries; null where there is none or it was not sealed here. */
async function sessionIdOf(cookie: string | undefined): Promise<string | null> {
  if (cookie === undefined) return null
  try {
    const token = await decode({ token: cookie, secret: process.env.NEXTAUTH_SECRET ?? '' })
    return typeof token?.session === 'string' ? token.session : null
  } catch {
    return null
  }
}

async function ownSessionId(): Promise<string | null> {
  return sessionIdOf((await cookies()).get(SESSION_COOKIE)?.value)
}

async function lookUp(sessionId: string): Promise<SignedIn | null> {
  const open = await store()
  const now = new Date()
  const session = await readSession(open, sessionId, { now })
  if (session === null) return null
  const actor = { name: session.name, role: session.role, sessionHash: session.sessionHash, ...(await requestFacts()) }
  const { name, role, means } = session
  const confinement = confinementOf(means, factorPolicy())
  return { name, role, sessionId, means, confinement, call: { store: open, actor, now: now.toISOString(), today: clinicDay(now) } }
}

/**
 * Who is signed in, looked up in the session row on every request (once within one), or null; even where nothing but the own account is open to them.
 * The clock is read here and nowhere further in: everything that answers this request shares one `now` and one `today`.
 */
export const present = cache(async (): Promise<SignedIn | null> => {
  const sessionId = await ownSessionId()
  if (sessionId === null) return null
  try {
    return await lookUp(sessionId)
  } catch (error) {
    if (isDatabaseFault(error)) await answerWith(503)
    throw error
  }
})

/** For how long the session of this request holds; null where none does. Only with `alive` is that a person's sign of life. */
export async function sessionTold({ alive }: { readonly alive: boolean }): Promise<SessionEnds | null> {
  const sessionId = await ownSessionId()
  if (sessionId === null) return null
  return (alive ? signOfLife : sessionEnds)(await store(), sessionId, { now: new Date() })
}

/** Does the session a longer answer was begun in still hold? Told by its row and the clock, and no sign of life. */
export function stillHolds({ call, sessionId }: SignedIn): boolean {
  return sessionEnds(call.store, sessionId, { now: new Date() }) !== null
}

/** Who is signed in and may go where the role leads; null for nobody, and for whoever has to set up a second factor or change the password first. */
export async function signedIn(): Promise<SignedIn | null> {
  const person = await present()
  return person?.confinement === null ? person : null
}

/** A call in nobody's name, for what can be done before signing in. */
export async function callOfNobody(): Promise<Call> {
  const now = new Date()
  return {
    store: await store(),
    actor: { name: 'nobody', role: 'none', sessionHash: null, ...(await requestFacts()) },
    now: now.toISOString(),
    today: clinicDay(now),
  }
}
