import { type SurvivalCurve, survivalQuantile } from '../../statistics/index.ts'

/** An axis of days from 0: where it ends, and the days named on it. */
export interface DayAxis {
  readonly end: number
  readonly days: readonly number[]
}

const STEPS = [1, 2, 5, 7, 14, 30, 60, 90, 180, 360, 720]
const MOST_NAMED = 7
/** Where nine of ten are done, half as long again is shown, but never less than this. (ours) */
const NEARLY_ALL = 0.9
const BEYOND = 1.5
const LEAST = 30

/** Up to the last day anybody was watched; sooner where nearly all are done long before, so that the days in which most happens have room. */
export function waitAxis(curve: SurvivalCurve): DayAxis {
  const last = curve.steps.at(-1)?.time ?? 0
  const nearly = survivalQuantile(curve, NEARLY_ALL).time
  const wanted = Math.max(1, nearly === null ? last : Math.min(last, Math.max(nearly * BEYOND, LEAST)))
  const step = STEPS.find((one) => wanted / one <= MOST_NAMED) ?? Math.ceil(wanted / MOST_NAMED)
  const named = Math.ceil(wanted / step)
  return { end: named * step, days: Array.from({ length: named + 1 }, (_, at) => at * step) }
}
