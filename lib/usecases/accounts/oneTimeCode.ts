import { digestOf, plainCode, randomCode } from '../sessions/token.ts'

const CODE_HOURS = 72

/** A one-time code, shown once, and until when it is good (UTC, ISO 8601). */
export interface OneTimeCode {
  readonly code: string
  readonly expiresAt: string
}

/** A new code: what the administrator is shown, and what is kept of it. */
export function freshCode(now: string): {
  readonly shown: OneTimeCode
  readonly secret: { readonly codeHash: string; readonly codeExpiresAt: string }
} {
  const code = randomCode()
  const expiresAt = new Date(Date.parse(now) + CODE_HOURS * 3_600_000).toISOString()
  return { shown: { code, expiresAt }, secret: { codeHash: digestOf(plainCode(code)), codeExpiresAt: expiresAt } }
}
