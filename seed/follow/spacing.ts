import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'

/** Share of planned visits that were missed altogether (ours). */
const MISSED = 0.03

/**
 * The day after `from` on which a visit planned `days` later took place: mostly a little early, now and then late by up to 8 %.
 * A visit can be missed, so that the next one comes an interval later; never the one that would fall after `until`, so that missed
 * visits are history and who is late today is told by the scenarios alone.
 */
export function nextVisit(from: Offset, days: number, until: Offset, chance: Chance): Offset {
  const spread = chance.happens(0.93) ? chance.between(0.9, 1) : chance.between(1, 1.08)
  const gap = Math.max(1, Math.round(days * spread))
  const missed = chance.happens(MISSED) && from + 2 * gap < until
  return from + (missed ? 2 * gap : gap)
}
