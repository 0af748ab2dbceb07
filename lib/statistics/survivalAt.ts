import type { SurvivalCurve } from './kaplanMeier.ts'
import type { Interval } from './shareBand.ts'

/** What a curve says of any one time. */
export interface SurvivalAt {
  readonly time: number
  /** Cases that were neither over nor censored before this time. */
  readonly atRisk: number
  /** Up to this time, itself included. */
  readonly events: number
  readonly censored: number
  /** Null after the last time at which anyone was seen, unless nobody was left without the event: nobody knows. */
  readonly survival: number | null
  readonly standardError: number | null
  readonly interval: Interval | null
}

/** The curve at a time, events at exactly that time included. Throws RangeError for a time below 0 or not a number. */
export function survivalAt({ size, steps }: SurvivalCurve, time: number): SurvivalAt {
  if (!(time >= 0)) throw new RangeError(`${time} is no time of 0 or above`)
  const past = steps.filter((step) => step.time <= time)
  const last = past.at(-1)
  const known = { time, events: past.reduce((sum, step) => sum + step.events, 0), censored: past.reduce((sum, step) => sum + step.censored, 0) }
  const atRisk = last?.time === time ? last.atRisk : size - known.events - known.censored
  if (last === undefined) return { ...known, atRisk, survival: size === 0 ? null : 1, standardError: size === 0 ? null : 0, interval: null }
  const beyond = past.length === steps.length && last.time < time && last.survival > 0
  if (beyond) return { ...known, atRisk, survival: null, standardError: null, interval: null }
  return { ...known, atRisk, survival: last.survival, standardError: last.standardError, interval: last.interval }
}

/** The rows under a curve: at risk, events and open cases so far, and survival, at each of the times as given. */
export function atRiskTable(curve: SurvivalCurve, times: readonly number[]): readonly SurvivalAt[] {
  return times.map((time) => survivalAt(curve, time))
}
