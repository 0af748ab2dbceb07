import { readFileSync } from 'node:fs'
import { isPrivateAddress } from './privateAddress.ts'

/** The clinic's single sign-on, as the environment sets it. */
export interface OpenIdSettings {
  /** Exactly as the provider writes it of itself. */
  readonly issuer: string
  readonly clientId: string
  readonly clientSecret: string
  /** What people call it: "Sign in with ...". */
  readonly name: string
  /** The one algorithm an ID token may be signed with. */
  readonly algorithm: string
}

/** Signed by the provider's own key. Neither `none` nor HS256, whose key would be the client secret (RFC 8725, 3.1 and 3.2). */
const ALGORITHMS = ['RS256', 'RS384', 'RS512', 'PS256', 'PS384', 'PS512', 'ES256', 'ES384', 'ES512']
const LONGEST_NAME = 40

type Read = { readonly settings: OpenIdSettings | null } | { readonly problem: string }

function secretIn(path: string): { readonly secret: string } | { readonly problem: string } {
  try {
    const secret = readFileSync(path, 'utf8').trim()
    return secret === '' ? { problem: 'the file that LOWMARK_OIDC_CLIENT_SECRET_FILE names is empty.' } : { secret }
  } catch (error) {
    return { problem: `the file that LOWMARK_OIDC_CLIENT_SECRET_FILE names cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).` }
  }
}

function issuerProblem(issuer: string): string | null {
  if (!URL.canParse(issuer)) return `LOWMARK_OIDC_ISSUER "${issuer}" is not an address.`
  if (!isPrivateAddress(issuer)) return 'LOWMARK_OIDC_ISSUER must begin with https:// unless it names this machine.'
  const { search, hash, username } = new URL(issuer)
  return `${search}${hash}${username}` === ''
    ? null
    : 'LOWMARK_OIDC_ISSUER must not have a query, a fragment or a user (OpenID Connect Discovery 1.0, 3).'
}

/** Reads the settings of single sign-on: all of them, or none (`settings: null`); otherwise what is wrong, in a sentence without the secret. */
export function readOpenIdSettings(): Read {
  const four = {
    LOWMARK_OIDC_ISSUER: process.env.LOWMARK_OIDC_ISSUER ?? '',
    LOWMARK_OIDC_CLIENT_ID: process.env.LOWMARK_OIDC_CLIENT_ID ?? '',
    LOWMARK_OIDC_CLIENT_SECRET_FILE: process.env.LOWMARK_OIDC_CLIENT_SECRET_FILE ?? '',
    LOWMARK_OIDC_NAME: process.env.LOWMARK_OIDC_NAME ?? '',
  }
  const algorithm = process.env.LOWMARK_OIDC_ALGORITHM ?? ''
  const missing = Object.entries(four).flatMap(([name, value]) => (value === '' ? [name] : []))
  if (missing.length === 4 && algorithm === '') return { settings: null }
  if (missing.length > 0) return { problem: `single sign-on takes all of its settings or none, and ${missing.join(', ')} is missing.` }
  const problem = issuerProblem(four.LOWMARK_OIDC_ISSUER)
  if (problem !== null) return { problem }
  if (algorithm !== '' && !ALGORITHMS.includes(algorithm)) return { problem: `LOWMARK_OIDC_ALGORITHM takes one of ${ALGORITHMS.join(', ')}.` }
  if ([...four.LOWMARK_OIDC_NAME].length > LONGEST_NAME) return { problem: `LOWMARK_OIDC_NAME has more than ${LONGEST_NAME} characters.` }
  const read = secretIn(four.LOWMARK_OIDC_CLIENT_SECRET_FILE)
  if ('problem' in read) return read
  return {
    settings: {
      issuer: four.LOWMARK_OIDC_ISSUER,
      clientId: four.LOWMARK_OIDC_CLIENT_ID,
      clientSecret: read.secret,
      name: four.LOWMARK_OIDC_NAME,
      algorithm: algorithm === '' ? 'RS256' : algorithm,
    },
  }
}
