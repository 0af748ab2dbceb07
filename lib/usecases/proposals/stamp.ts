import { canonicalSha256 } from '../../trail/index.ts'
import type { Refusal } from './proposal.ts'

/** What a consequence rests on: the history, the plan and the day it was worked out with. */
export interface RestsOn {
  readonly revision: number
  readonly planVersion: string
  readonly today: string
}

/** Names a consequence that was shown: what was asked, and what it was worked out from. */
export function stampOf(content: object, { revision, planVersion, today }: RestsOn): string {
  return `${canonicalSha256(content).slice(0, 16)} ${revision} ${today} ${planVersion}`
}

/** Why a consequence that was shown is not the one of now: other fields were sent, or something arrived. Null where it is. */
export function staleBecause(shown: string, now: string): Refusal | null {
  if (shown === now) return null
  const isOther = shown.slice(0, 16) !== now.slice(0, 16)
  const reason = isOther
    ? 'The form says something else than what was shown. This is what it would do now; nothing is kept yet.'
    : 'Something arrived or was decided meanwhile. This is what it would do now; nothing is kept yet.'
  return { ok: false, kind: 'invalid', reason, stale: isOther ? 'other' : 'arrived' }
}
