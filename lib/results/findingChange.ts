import type { Day } from '../time/index.ts'
import type { Decision } from './decision.ts'
import type { LabResult } from './labResult.ts'

/** Two versions of one result: the one that counted, and the one that counts in its place. The same twice where it was taken back and none does. */
export interface Correction {
  readonly replaced: LabResult
  readonly by: LabResult
}

/** Whether the version that counted was taken back with a mapping: what counts in its place, if anything, had come before it. */
export function isTakenBack({ replaced, by }: Correction): boolean {
  return by.id <= replaced.id
}

/**
 * What corrections did to one finding somebody could have seen. `removed`: no longer told, or told as past; `created`: told now; `changed`: told
 * with another state, certainty, window, beginning or value.
 */
export interface FindingChange {
  /** Later changes have higher numbers. */
  readonly id: number
  /** UTC, ISO 8601: when the correction was filed. */
  readonly at: string
  /** The clinic's day. */
  readonly on: Day
  readonly what: 'removed' | 'created' | 'changed'
  readonly rule: string
  /** Names the finding with its evidence as it was told before; one that was not, as it is told since. */
  readonly key: string
  /** The finding as told before and since, as JSON text; null where it was not told. */
  readonly before: string | null
  readonly since: string | null
  /** Never empty. */
  readonly corrections: readonly Correction[]
  /** What people had decided about the finding, or about a version that was replaced. */
  readonly decisions: readonly Decision[]
}
