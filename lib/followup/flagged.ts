import type { Day } from '../time/index.ts'
import { type Wait, waitOf } from './waits.ts'

/** How a finding was overturned: another cause recorded, its value excluded as spurious, or taken back by a correction. */
export const OVERTURNED = ['other-cause', 'excluded', 'corrected'] as const
export type Overturned = (typeof OVERTURNED)[number]

/** A finding that results raised, as the audit asks about it. Rules stand behind this room, so whoever calls tells of it. */
export interface Flagged {
  readonly rule: string
  /** The day of the first sample that showed it. */
  readonly since: Day
  /** The day of the sample that no longer did; null while it does. */
  readonly endedOn: Day | null
  /** The day somebody first answered it; null where nobody has. */
  readonly answeredOn: Day | null
  /** Raised by one sample, so that a second one is awaited. */
  readonly needsSecond: boolean
  /** The day of the second sample; null where there is none. */
  readonly secondOn: Day | null
  readonly overturned: Overturned | null
}

export interface FlaggedCounts {
  found: number
  answered: number
  overturned: Record<Overturned, number>
  toReview: Wait[]
  toRepeat: Wait[]
}

export function noneFlagged(): FlaggedCounts {
  return { found: 0, answered: 0, overturned: { 'other-cause': 0, excluded: 0, corrected: 0 }, toReview: [], toRepeat: [] }
}

/** Counts one finding. A case that is still open on the last day anybody watched is censored there; so is one the next sample no longer showed. */
export function countFlagged(counts: FlaggedCounts, flagged: Flagged, watchedUntil: Day): void {
  counts.found += 1
  if (flagged.answeredOn !== null) counts.answered += 1
  if (flagged.overturned !== null) counts.overturned[flagged.overturned] += 1
  counts.toReview.push(waitOf(flagged.since, flagged.answeredOn, watchedUntil, flagged.endedOn))
  if (flagged.needsSecond) counts.toRepeat.push(waitOf(flagged.since, flagged.secondOn, watchedUntil, null))
}
