import 'server-only'
import { cookies } from 'next/headers'
import type { NextRequest } from 'next/server'
import NextAuth from 'next-auth'
import { decode } from 'next-auth/jwt'
import type { ProviderRefusal } from '../../lib/trail/index.ts'
import { joinIdentity, type PresentedCode, signInByIdentity } from '../../lib/usecases/index.ts'
import { JOIN_COOKIE, presentedFor } from './joinCookie.ts'
import { openIdOptions, ROUND_TRIP_COOKIES, type RoundTrip, STATE_COOKIE } from './openId.ts'
import type { OpenIdSettings } from './openIdSettings.ts'
import { forgotten, logFailure } from './providerFailed.ts'
import { requestFacts } from './request.ts'
import type { SignInContext } from './signInContext.ts'
import { store } from './store.ts'
import { unlessUnavailable } from './unavailable.ts'

/** Why there is no use in asking the provider: this is not the browser that began, or the provider says no itself. */
async function obstacle(answered: URLSearchParams): Promise<ProviderRefusal | null> {
  const jar = await cookies()
  if (ROUND_TRIP_COOKIES.some((name) => !jar.has(name))) return 'no-cookie'
  const secret = process.env.NEXTAUTH_SECRET ?? ''
  const opened = (salt: string) => decode({ token: jar.get(salt)?.value ?? '', secret, salt }).catch(() => null)
  const sealed = await Promise.all(ROUND_TRIP_COOKIES.map(opened))
  if (sealed.includes(null) || sealed[ROUND_TRIP_COOKIES.indexOf(STATE_COOKIE)]?.value !== answered.get('state')) return 'state'
  return answered.has('error') ? 'refused-by-provider' : null
}

function welcomeOf(presented: PresentedCode | null): RoundTrip['welcome'] {
  return async (identity) => {
    const [open, facts] = [await store(), { now: new Date(), ...(await requestFacts()) }]
    return unlessUnavailable(() => (presented === null ? signInByIdentity(open, identity, facts) : joinIdentity(open, presented, identity, facts)))
  }
}

/** The library's headers, with the session's cookie, where somebody was signed in; null where nobody was, which is then in the log. */
async function signedInHeaders(request: NextRequest, context: SignInContext, settings: OpenIdSettings): Promise<Headers | null> {
  const { searchParams } = request.nextUrl
  const refused = await obstacle(searchParams)
  if (refused !== null) {
    await logFailure(refused)
    return null
  }
  const presented = await presentedFor((await cookies()).get(JOIN_COOKIE)?.value, searchParams.get('state'))
  const trip: RoundTrip = { welcome: welcomeOf(presented), joining: presented !== null, refused: null, outcome: null }
  const answer: Response = await NextAuth(request, context, openIdOptions(settings, trip))
  // Before a token is taken only the discovery can fail.
  if (trip.outcome === null) await logFailure(trip.refused ?? 'unreachable')
  return trip.outcome?.ok ? answer.headers : null
}

/** The way back. Ends in a session and at the own first page, or at the sign-in page, which says nothing of why; the log does. */
export async function comeBack(request: NextRequest, context: SignInContext, settings: OpenIdSettings): Promise<Response> {
  const session = await signedInHeaders(request, context, settings)
  const headers = new Headers(session ?? {})
  for (const each of forgotten([...ROUND_TRIP_COOKIES, JOIN_COOKIE])) headers.append('Set-Cookie', each)
  headers.set('Location', session === null ? '/sign-in?single-sign-on=failed' : '/')
  return new Response(null, { status: 303, headers })
}
