import 'server-only'
import { decode, encode } from 'next-auth/jwt'
import type { PresentedCode } from '../../lib/usecases/index.ts'

export const JOIN_COOKIE = '__Host-lowmark.join'
const SECONDS = 10 * 60

const sealing = () => ({ salt: JOIN_COOKIE, secret: process.env.NEXTAUTH_SECRET ?? '' })

/**
 * The Set-Cookie that takes a presented code through one way to the provider and back: `state` is that of this way, so that whoever signs in next at
 * the same browser is not joined by it. Sealed, and it holds the code's SHA-256 only.
 */
export async function joinCookie(presented: PresentedCode, state: string): Promise<string> {
  const value = await encode({ ...sealing(), token: { ...presented, state }, maxAge: SECONDS })
  return `${JOIN_COOKIE}=${value}; Path=/; Max-Age=${SECONDS}; HttpOnly; Secure; SameSite=Lax`
}

/** The code presented at the beginning of the way that carries this `state`; null where it was another way, or none was. */
export async function presentedFor(cookie: string | undefined, state: string | null): Promise<PresentedCode | null> {
  if (cookie === undefined || state === null) return null
  try {
    const token = await decode({ ...sealing(), token: cookie })
    if (token?.state !== state || typeof token.account !== 'string' || typeof token.codeHash !== 'string') return null
    return { account: token.account, codeHash: token.codeHash }
  } catch {
    return null
  }
}
