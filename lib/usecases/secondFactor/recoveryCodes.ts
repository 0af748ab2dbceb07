import type { StoredAccount, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import { digestOf, plainCode, randomCode } from '../sessions/token.ts'

const COUNT = 10

/** New recovery codes, as they are shown, this once, and when they were made (UTC, ISO 8601). */
export interface MadeCodes {
  readonly codes: readonly string[]
  readonly madeAt: string
}

/** Ten new recovery codes in the place of all earlier ones, and the entry for it. Their digests are kept. */
export function makeCodes(tx: Tx, { id, name }: StoredAccount, at: string): { readonly made: MadeCodes; readonly event: TrailEvent } {
  const codes = Array.from({ length: COUNT }, randomCode)
  const digests = codes.map((code) => digestOf(plainCode(code)))
  tx.setRecoveryCodes(id, digests, at)
  return { made: { codes, madeAt: at }, event: { action: 'recovery-codes-made', account: name, count: COUNT } }
}
