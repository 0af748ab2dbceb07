import 'server-only'
import type { AuthOptions } from 'next-auth'
import type { OAuthConfig } from 'next-auth/providers/oauth'
import type { Identity } from '../../lib/store/index.ts'
import type { ProviderRefusal } from '../../lib/trail/index.ts'
import type { Outcome, SignedInSession } from '../../lib/usecases/index.ts'
import { OpenIdRefused, openIdRefusal } from './openIdRefusal.ts'
import type { OpenIdSettings } from './openIdSettings.ts'
import { isPrivateAddress } from './privateAddress.ts'
import { signInOptions } from './signInOptions.ts'

/** The provider's name in addresses: the way back is /api/auth/callback/openid. */
export const OPEN_ID = 'openid'
const MINUTES_AT_PROVIDER = 10
const COOKIE = { httpOnly: true, secure: true, sameSite: 'lax', path: '/', maxAge: MINUTES_AT_PROVIDER * 60 } as const
const COOKIES = {
  state: { name: '__Host-lowmark.state', options: COOKIE },
  nonce: { name: '__Host-lowmark.nonce', options: COOKIE },
  pkceCodeVerifier: { name: '__Host-lowmark.pkce', options: COOKIE },
} as const
/** What a browser holds while its person is at the provider; taken away when they are back, whatever came of it. */
export const ROUND_TRIP_COOKIES = Object.values(COOKIES).map(({ name }) => name)
export const STATE_COOKIE = COOKIES.state.name

/** A provider's clock may be ahead of ours by so much. (ours) */
const CLOCK_MS = 60_000
/** OpenID Connect Core 1.0, 2: ASCII, at most 255 characters. */
const SUBJECT = /^[\x20-\x7e]{1,255}$/

/** What is read of a discovery document beside what the library reads. */
interface Discovered {
  readonly issuer: string
  readonly token_endpoint?: string
  readonly jwks_uri?: string
}

/** What is read of a token beside what the library reads. */
interface Claims {
  readonly sub: unknown
  readonly iat: unknown
}

/** The library takes any discovery document; this one must be of the issuer we know (OpenID Connect Discovery 1.0, 4.3), and its ways private. */
function checkProvider({ issuer, token_endpoint, jwks_uri }: Discovered, settings: OpenIdSettings): void {
  if (issuer !== settings.issuer || !isPrivateAddress(token_endpoint) || !isPrivateAddress(jwks_uri)) throw new OpenIdRefused('wrong-issuer')
}

/** What the library leaves unchecked of a token it took: its time of issue, and what a subject is. */
function checkClaims({ sub, iat }: Claims): void {
  if (typeof iat !== 'number' || iat * 1000 > Date.now() + CLOCK_MS) throw new OpenIdRefused('issued-in-future')
  if (typeof sub !== 'string' || !SUBJECT.test(sub)) throw new OpenIdRefused('no-subject')
}

/** One person's way to the provider or back: what to do with who came back, and what came of it. */
export interface RoundTrip {
  readonly welcome: (identity: Identity) => Promise<Outcome<SignedInSession>>
  /** A sign-in that joins an account asks the provider for a fresh one: whoever used this browser before may be signed in there. */
  readonly joining: boolean
  /** Why no token was taken; null while none was refused. */
  refused: ProviderRefusal | null
  outcome: Outcome<SignedInSession> | null
}

function providerOf(settings: OpenIdSettings, trip: RoundTrip): OAuthConfig<Claims> {
  return {
    id: OPEN_ID,
    name: settings.name,
    type: 'oauth',
    wellKnown: `${settings.issuer.replace(/\/$/, '')}/.well-known/openid-configuration`,
    clientId: settings.clientId,
    clientSecret: settings.clientSecret,
    idToken: true,
    checks: ['pkce', 'state', 'nonce'],
    authorization: { params: { scope: 'openid', ...(trip.joining ? { prompt: 'login' } : {}) } },
    client: { id_token_signed_response_alg: settings.algorithm },
    token: {
      async request({ client, params, checks, provider }) {
        try {
          checkProvider(client.issuer.metadata, settings)
          // A token is taken from the provider alone, never from the address bar: of the answer only the code and what vouches for it count.
          const answer = Object.fromEntries(Object.entries(params).filter(([name]) => ['code', 'state', 'iss'].includes(name)))
          const tokens = await client.callback(provider.callbackUrl, answer, { ...checks, response_type: 'code' })
          checkClaims(tokens.claims())
          return { tokens }
        } catch (error) {
          trip.refused = openIdRefusal(error)
          throw error
        }
      },
    },
    // Of the token only the subject is read: no name, no e-mail, no role. What is returned is the session, as for a password.
    async profile({ sub }) {
      trip.outcome = await trip.welcome({ issuer: settings.issuer, subject: String(sub) })
      return { id: trip.outcome.ok ? trip.outcome.value.sessionId : '' }
    },
  }
}

/** The settings of a password sign-in, with the provider in the place of the password. */
export function openIdOptions(settings: OpenIdSettings, trip: RoundTrip): AuthOptions {
  return { ...signInOptions, providers: [providerOf(settings, trip)], cookies: { ...signInOptions.cookies, ...COOKIES } }
}
