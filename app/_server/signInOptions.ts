import 'server-only'
import type { AuthOptions } from 'next-auth'
import CredentialsProvider from 'next-auth/providers/credentials'
import { signIn } from '../../lib/usecases/index.ts'
import { requestFacts } from './request.ts'
import { store } from './store.ts'

/** `__Host-`: this host alone, over TLS or on this machine, for every path (RFC 6265bis). Browsers take Secure cookies on http://127.0.0.1. */
export const SESSION_COOKIE = '__Host-lowmark.session'
export const SESSION_SECONDS = 12 * 60 * 60

const COOKIE = { httpOnly: true, secure: true, sameSite: 'lax', path: '/' } as const

/** The token carries the id of the session row and nothing else; who that is and whether it still holds is looked up on every read. */
export const signInOptions: AuthOptions = {
  providers: [
    CredentialsProvider({
      name: 'password',
      credentials: { name: { type: 'text' }, password: { type: 'password' }, code: { type: 'text' } },
      async authorize(given) {
        const outcome = await signIn(
          await store(),
          { name: given?.name ?? '', password: given?.password ?? '', code: given?.code ?? '' },
          { now: new Date(), ...(await requestFacts()) },
        )
        if (!outcome.ok) throw new Error(outcome.reason)
        return { id: outcome.value.sessionId }
      },
    }),
  ],
  session: { strategy: 'jwt', maxAge: SESSION_SECONDS, updateAge: SESSION_SECONDS },
  jwt: { maxAge: SESSION_SECONDS },
  pages: { signIn: '/sign-in', signOut: '/sign-in', error: '/sign-in' },
  useSecureCookies: true,
  cookies: {
    sessionToken: { name: SESSION_COOKIE, options: COOKIE },
    csrfToken: { name: '__Host-lowmark.csrf', options: COOKIE },
    callbackUrl: { name: '__Host-lowmark.callback', options: COOKIE },
  },
  callbacks: {
    jwt: ({ token, user }) => (user === undefined ? token : { session: user.id }),
    redirect: ({ baseUrl }) => baseUrl,
  },
  // A library's debug text could carry a name; what happened is in Lowmark's own log.
  logger: { error: () => undefined, warn: () => undefined, debug: () => undefined },
}
