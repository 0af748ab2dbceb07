import { Secret, TOTP } from 'otpauth'

/** RFC 6238 with its default hash and step; six digits and SHA-1 are what every authenticator app reads. */
const TOTP_AS = { algorithm: 'SHA1', digits: 6, period: 30 } as const
/** One step either side for clocks that differ and a code typed late (RFC 6238, 5.2). */
const WINDOW = 1
/** 160 bits (RFC 4226, 4, R6). */
const SECRET_BYTES = 20
/** The same work is done for an account that has none. */
const NOBODYS = new Secret({ size: SECRET_BYTES })

/** A new secret by chance, in Base32. */
export function newSecret(): string {
  return new Secret({ size: SECRET_BYTES }).base32
}

/** What an authenticator app reads: the secret, whose it is, and how codes are made of it. */
export function keyAddress(secret: string, accountName: string): string {
  return new TOTP({ ...TOTP_AS, issuer: 'Lowmark', label: accountName, secret: Secret.fromBase32(secret) }).toString()
}

/** The time step whose code this is, at most one step from `at` (UTC, ISO 8601); null where it is none of them. Without a secret the same work, and null. */
export function stepOfCode(secret: string | null, code: string, at: string): number | null {
  const timestamp = Date.parse(at)
  const key = secret === null ? NOBODYS : Secret.fromBase32(secret)
  // Six digits of ASCII: the comparison in constant time needs equal lengths.
  const token = /^[0-9]{6}$/.test(code) ? code : '000000'
  const delta = TOTP.validate({ ...TOTP_AS, token, secret: key, timestamp, window: WINDOW })
  if (secret === null || token !== code || delta === null) return null
  return TOTP.counter({ period: TOTP_AS.period, timestamp }) + delta
}
