import type { Reader, Tx } from '../../store/index.ts'
import { digestOf, plainCode } from '../sessions/token.ts'
import { unseal } from './seal.ts'
import { stepOfCode } from './totp.ts'

/** What the field for a code held: a code of the authenticator, one of the recovery codes, neither, or nothing that is asked for. */
export type ShownCode =
  | { readonly kind: 'not-asked' }
  | { readonly kind: 'wrong' }
  | { readonly kind: 'code'; readonly step: number }
  | { readonly kind: 'recovery'; readonly digest: string }

/** Opens as nothing, after the work of one that does: whether an account has a second factor is not told by the time it takes. */
const NOBODYS_SEAL = `v1.${'A'.repeat(16)}.${'A'.repeat(22)}.${'A'.repeat(43)}`

/** What a stored secret is sealed about. */
export function factorOf(accountId: number): string {
  return `second factor of account ${accountId}`
}

/**
 * What was shown for the second factor of an account at `at` (UTC, ISO 8601). The same work whatever is set up. A secret that cannot be read any more
 * fits no code; recovery codes do not need it.
 */
export function readShownCode(reader: Reader, accountId: number | null, typed: string, at: string): ShownCode {
  const id = accountId ?? 0
  const factor = reader.secondFactor(id)
  const sealed = factor?.sealed ?? null
  const plain = plainCode(typed)
  const step = stepOfCode(unseal(sealed ?? NOBODYS_SEAL, factorOf(id)), plain, at)
  const digest = digestOf(plain)
  const isRecovery = reader.isRecoveryCode(id, digest)
  if (sealed === null) return { kind: 'not-asked' }
  if (step !== null && step > (factor?.lastStep ?? 0)) return { kind: 'code', step }
  return isRecovery ? { kind: 'recovery', digest } : { kind: 'wrong' }
}

/** Counts the code, so that it never counts again. */
export function spendCode(tx: Tx, accountId: number, shown: ShownCode, at: string): void {
  if (shown.kind === 'code') tx.setLastStep(accountId, shown.step)
  if (shown.kind === 'recovery') tx.spendRecoveryCode(shown.digest, at)
}
