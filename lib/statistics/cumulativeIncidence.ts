import type { Observed } from './observed.ts'
import { type Interval, type Scale, shareBand } from './shareBand.ts'
import { tally } from './tally.ts'

/** One cause at one time. */
export interface CauseStep {
  readonly events: number
  /** The share that had this cause first, up to and with this time, as a fraction. */
  readonly incidence: number
  readonly standardError: number
  /** Pointwise; null where the incidence is 0 or 1. */
  readonly interval: Interval | null
}

export interface IncidenceStep {
  readonly time: number
  /** Just before this time. */
  readonly atRisk: number
  readonly censored: number
  /** The share to which nothing happened yet: with all incidences it makes 1. */
  readonly eventFree: number
  /** Cause 1 first. */
  readonly causes: readonly CauseStep[]
}

export interface IncidenceCurves {
  readonly size: number
  readonly causes: number
  /** Earliest first; none for no case. */
  readonly steps: readonly IncidenceStep[]
}

/** A share and how it varies: by itself, and together with the share that is event-free. */
interface Varying {
  readonly share: number
  readonly variance: number
  readonly withFree: number
}

/**
 * How often each of the competing causes came first, by Aalen and Johansen: outcome 0 is open (censored), 1 to `causes` is what happened. Where one case would have
 * two causes at one time the caller says which counts. The standard error is Greenwood's for competing causes, carried from step to step (a multinomial draw at each
 * time), so that it needs no difference of large numbers. Throws RangeError as Kaplan-Meier does. Aalen and Johansen, Scand J Stat 1978;5:141; Andersen, Borgan, Gill
 * and Keiding 1993, IV.4.
 */
export function cumulativeIncidence(observed: Observed, causes: number, scale: Scale = 'log-log', confidence = 0.95): IncidenceCurves {
  if (!Number.isInteger(causes) || causes < 1) throw new RangeError(`${causes} is no count of causes`)
  const band = shareBand(scale, confidence)
  const { size, times, counts } = tally(observed, causes + 1)
  let atRisk = size
  let free = { share: 1, variance: 0 }
  let each: readonly Varying[] = new Array<Varying>(causes).fill({ share: 0, variance: 0, withFree: 0 })
  const steps = times.map((time, at): IncidenceStep => {
    const [censored = 0, ...happened] = counts.map((of) => of[at] ?? 0)
    const [before, was] = [atRisk, free]
    const all = happened.reduce((sum, events) => sum + events, 0) / before
    const drawn = was.share ** 2 / before
    each = each.map(({ share, variance, withFree }, cause) => {
      const hazard = (happened[cause] ?? 0) / before
      return {
        share: share + was.share * hazard,
        variance: variance + hazard ** 2 * was.variance + 2 * hazard * withFree + drawn * hazard * (1 - hazard),
        withFree: (1 - all) * (withFree + hazard * was.variance) - drawn * hazard * (1 - all),
      }
    })
    free = { share: was.share * (1 - all), variance: (1 - all) ** 2 * was.variance + drawn * all * (1 - all) }
    atRisk = happened.reduce((left, events) => left - events, before - censored)
    const causesNow = each.map(({ share, variance }, cause) => {
      const standardError = Math.sqrt(Math.max(0, variance))
      return { events: happened[cause] ?? 0, incidence: share, standardError, interval: band(share, standardError) }
    })
    return { time, atRisk: before, censored, eventFree: free.share, causes: causesNow }
  })
  return { size, causes, steps }
}
