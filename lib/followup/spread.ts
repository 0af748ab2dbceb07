import { quantiles } from '../statistics/index.ts'

/** The middle of some numbers of days, the 90th percentile, and the greatest; null for none. */
export interface Spread {
  readonly count: number
  readonly median: number
  readonly p90: number
  readonly most: number
}

export function spreadOf(days: ArrayLike<number>): Spread | null {
  if (days.length === 0) return null
  const [median = Number.NaN, p90 = Number.NaN, most = Number.NaN] = quantiles(days, [0.5, 0.9, 1])
  return { count: days.length, median, p90, most }
}
