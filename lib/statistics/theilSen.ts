import { mannKendall } from './mannKendall.ts'
import { median } from './median.ts'
import { normalQuantile } from './normal.ts'

/** A value `y` at a place `x`; the slope is in units of y a unit of x. */
export interface Place {
  readonly x: number
  readonly y: number
}

export interface TheilSen {
  /** Median of the slopes of all pairs. */
  readonly slope: number
  /** Null where the values are too few for a rank at this confidence: without ties, five or fewer at 95 %. */
  readonly interval: readonly [low: number, high: number] | null
}

function pairSlopes(places: readonly Place[]): number[] {
  const slopes = places.flatMap((later, at) =>
    places.slice(0, at).flatMap((earlier) => (later.x === earlier.x ? [] : [(later.y - earlier.y) / (later.x - earlier.x)])),
  )
  return slopes.sort((a, b) => a - b)
}

/** The value at a rank counted from 1, between two ranks on the straight line; null outside the ranks there are. */
function atRank(sorted: readonly number[], rank: number): number | null {
  const below = Math.floor(rank)
  const [low, high] = [sorted[below - 1], sorted[Math.ceil(rank) - 1]]
  return low === undefined || high === undefined ? null : low + (rank - below) * (high - low)
}

/**
 * The median of all pairwise slopes: a few outliers do not move it. Null where no two places differ in x. Interval: ranks (N - C) / 2 and
 * (N + C) / 2 + 1 of the N ordered slopes, C the normal quantile times the standard deviation of Mann-Kendall's S. Sen, J Am Stat Assoc
 * 1968;63:1379; ranks read by interpolation, Gilbert 1987.
 */
export function theilSen(places: readonly Place[], confidence = 0.95): TheilSen | null {
  const slopes = pairSlopes(places)
  if (slopes.length === 0) return null
  const inOrder = [...places].sort((a, b) => a.x - b.x).map(({ y }) => y)
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(mannKendall(inOrder).variance)
  const low = atRank(slopes, (slopes.length - reach) / 2)
  const high = atRank(slopes, (slopes.length + reach) / 2 + 1)
  return { slope: median(slopes), interval: low === null || high === null ? null : [low, high] }
}
