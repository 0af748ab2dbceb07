import type { Observed } from './observed.ts'
import { type Interval, type Scale, shareBand } from './shareBand.ts'
import { tally } from './tally.ts'

/** At one distinct time. A case open at the time of an event is still at risk for it. */
export interface SurvivalStep {
  readonly time: number
  /** Just before this time. */
  readonly atRisk: number
  readonly events: number
  readonly censored: number
  /** The share without the event after this time, as a fraction. */
  readonly survival: number
  /** Greenwood's, of the survival; null where the survival is 0. */
  readonly standardError: number | null
  /** Pointwise; null where the survival is 0, or still 1. */
  readonly interval: Interval | null
}

export interface SurvivalCurve {
  /** Cases. */
  readonly size: number
  readonly events: number
  readonly scale: Scale
  readonly confidence: number
  /** Earliest first, those at which cases were only censored among them; none for no case. */
  readonly steps: readonly SurvivalStep[]
}

/**
 * The Kaplan-Meier curve of outcomes 0 (open, censored) and 1 (the event). Throws RangeError for a time below 0 or not finite and for another outcome. Intervals
 * are log-log by default: they stay within 0 and 1 without being cut and hold better in small groups. Kaplan and Meier, J Am Stat Assoc 1958;53:457; Greenwood 1926.
 */
export function kaplanMeier(observed: Observed, scale: Scale = 'log-log', confidence = 0.95): SurvivalCurve {
  const band = shareBand(scale, confidence)
  const { size, times, counts } = tally(observed, 2)
  let [atRisk, survival, hazards, events] = [size, 1, 0, 0]
  const steps = times.map((time, at): SurvivalStep => {
    const [censored, happened] = [counts[0]?.[at] ?? 0, counts[1]?.[at] ?? 0]
    const before = atRisk
    const after = before - happened
    survival *= after / before
    if (happened > 0 && after > 0) hazards += happened / (before * after)
    atRisk = after - censored
    events += happened
    const standardError = survival === 0 ? null : survival * Math.sqrt(hazards)
    const interval = standardError === null ? null : band(survival, standardError)
    return { time, atRisk: before, events: happened, censored, survival, standardError, interval }
  })
  return { size, events, scale, confidence, steps }
}
