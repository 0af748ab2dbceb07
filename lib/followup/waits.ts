import { kaplanMeier, type SurvivalCurve, survivalQuantile } from '../statistics/index.ts'
import { type Day, daysBetween, earlierDay } from '../time/index.ts'

/** How long something waited, in days; `over` is false where it waits still, or waited until nobody could do it any more. */
export interface Wait {
  readonly days: number
  readonly over: boolean
}

/** From one day to the day something happened; else to the first of the days that end the watching. */
export function waitOf(since: Day, happenedOn: Day | null, watchedUntil: Day, endedOn: Day | null): Wait {
  const last = endedOn === null ? watchedUntil : earlierDay(endedOn, watchedUntil)
  if (happenedOn !== null && happenedOn <= last) return { days: daysBetween(since, happenedOn), over: true }
  return { days: Math.max(0, daysBetween(since, last)), over: false }
}

/** Times to an event, those still open censored. */
export interface TimeTo {
  readonly events: number
  readonly open: number
  /** Days by which half have had it; null where the curve does not come down so far. */
  readonly median: number | null
  readonly median95: readonly [low: number | null, high: number | null]
  readonly curve: SurvivalCurve
}

export function timeTo(waits: readonly Wait[]): TimeTo {
  const curve = kaplanMeier({ times: waits.map(({ days }) => days), outcomes: waits.map(({ over }) => (over ? 1 : 0)) })
  const { time, low, high } = survivalQuantile(curve)
  return { events: curve.events, open: curve.size - curve.events, median: time, median95: [low, high], curve }
}
