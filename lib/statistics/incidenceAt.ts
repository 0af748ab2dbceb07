import type { CauseStep, IncidenceCurves } from './cumulativeIncidence.ts'
import type { Interval } from './shareBand.ts'

export interface IncidenceAt {
  readonly time: number
  /** Cases to which nothing had happened and that were not censored before this time. */
  readonly atRisk: number
  /** Null after the last time at which anyone was seen, unless something had happened to everyone. */
  readonly eventFree: number | null
  /** Cause 1 first; events so far, this time included. Incidences are null together with `eventFree`. */
  readonly causes: readonly {
    readonly events: number
    readonly incidence: number | null
    readonly standardError: number | null
    readonly interval: Interval | null
  }[]
}

const NOTHING_YET: CauseStep = { events: 0, incidence: 0, standardError: 0, interval: null }

/** The curves at a time, events at exactly that time included. Throws RangeError for a time below 0 or not a number. */
export function incidenceAt({ size, causes, steps }: IncidenceCurves, time: number): IncidenceAt {
  if (!(time >= 0)) throw new RangeError(`${time} is no time of 0 or above`)
  const past = steps.filter((step) => step.time <= time)
  const last = past.at(-1)
  const eventFree = last?.eventFree ?? 1
  const beyond = size === 0 || (last !== undefined && past.length === steps.length && last.time < time && eventFree > 0)
  const soFar = Array.from({ length: causes }, (_, cause) => {
    const { incidence, standardError, interval } = last?.causes[cause] ?? NOTHING_YET
    const events = past.reduce((sum, step) => sum + (step.causes[cause]?.events ?? 0), 0)
    return beyond ? { events, incidence: null, standardError: null, interval: null } : { events, incidence, standardError, interval }
  })
  const gone = past.reduce((sum, step) => sum + step.censored, 0) + soFar.reduce((sum, { events }) => sum + events, 0)
  return { time, atRisk: last?.time === time ? last.atRisk : size - gone, eventFree: beyond ? null : eventFree, causes: soFar }
}
