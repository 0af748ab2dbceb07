import type { SurvivalCurve } from './kaplanMeier.ts'

/** A time of a curve, in the unit of its times; null where the curve, or the end of its band, does not come down so far. */
export interface SurvivalQuantile {
  readonly time: number | null
  readonly low: number | null
  readonly high: number | null
}

/** A survival so close to the level lies on it: (19/20)(18/19)...(10/11) is not 0.5 to the last digit. As R's survival has it. */
const SAME = Math.sqrt(Number.EPSILON)

/** Where a falling line of heights reaches a level; the middle of the level stretch where it runs along it. */
function reaches(times: readonly number[], heights: readonly (number | null)[], level: number): number | null {
  const at = heights.findIndex((height) => height !== null && height <= level + SAME)
  const [first, height] = [times[at], heights[at] ?? Number.NaN]
  if (first === undefined || height < level - SAME) return first ?? null
  const next = heights.findIndex((later) => later !== null && later < level - SAME)
  return (first + (times[next === -1 ? times.length - 1 : next] ?? first)) / 2
}

/**
 * The time by which `share` of the cases have had the event: the median by default. The ends are the times at which the ends of the pointwise band reach the same
 * level. Throws RangeError unless 0 < share < 1. Brookmeyer and Crowley, Biometrics 1982;38:29; the middle of a level stretch as R's survival takes it.
 */
export function survivalQuantile({ steps }: SurvivalCurve, share = 0.5): SurvivalQuantile {
  if (!(share > 0 && share < 1)) throw new RangeError(`${share} is no share between 0 and 1`)
  const times = steps.map(({ time }) => time)
  const timeOf = (heights: readonly (number | null)[]) => reaches(times, heights, 1 - share)
  return {
    time: timeOf(steps.map(({ survival }) => survival)),
    low: timeOf(steps.map(({ interval }) => interval?.[0] ?? null)),
    high: timeOf(steps.map(({ interval }) => interval?.[1] ?? null)),
  }
}
