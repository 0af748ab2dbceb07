import { CLOCK_STEP_MS } from '../../access/index.ts'
import { digestOf, plainCode, randomCode } from '../sessions/token.ts'

const CODE_MS = 72 * 3_600_000

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
  const expiresAt = new Date(Date.parse(now) + CODE_MS).toISOString()
  return { shown: { code, expiresAt }, secret: { codeHash: digestOf(plainCode(code)), codeExpiresAt: expiresAt } }
}

/** Is a code that expires then still good at `now`? One good for longer than any is was given by a clock that has been set back since: no. */
export function isGoodCode(expiresAt: string, now: string): boolean {
  const left = Date.parse(expiresAt) - Date.parse(now)
  return left > 0 && left <= CODE_MS + CLOCK_STEP_MS
}
