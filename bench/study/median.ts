/** A median with its distribution-free 95 % interval, and quartiles. Infinity stands for "not while it was looked for". */
export interface Spread {
  readonly count: number
  readonly median: number
  readonly low: number
  readonly high: number
  readonly quartiles: readonly [number, number]
}

/**
 * Rank (from 1) of the lower end of the 95 % interval of a median of `count` values: the greatest whose binomial tail below is at most 2.5 %; the upper end
 * is as far from the other side. With fewer than six values there is none, and the ends are the least and the most. David and Nagaraja, Order Statistics,
 * 2003, 7.1.
 */
export function medianRank(count: number): number {
  let logTerm = -count * Math.LN2
  let tail = 0
  let rank = 0
  for (;;) {
    tail += Math.exp(logTerm)
    if (tail > 0.025 || rank > count / 2) return Math.max(1, rank)
    logTerm += Math.log(count - rank) - Math.log(rank + 1)
    rank += 1
  }
}

// The value with a share `p` of the others below it; between two ranks by their distance, where both are finite.
function quantile(sorted: readonly number[], p: number): number {
  const place = p * (sorted.length - 1)
  const [below, above] = [sorted[Math.floor(place)] ?? 0, sorted[Math.ceil(place)] ?? 0]
  return below === above || above === Number.POSITIVE_INFINITY ? above : below + (above - below) * (place - Math.floor(place))
}

/** Throws RangeError for no value. */
export function medianOf(values: readonly number[]): Spread {
  if (values.length === 0) throw new RangeError('there is no median of nothing')
  const sorted = values.toSorted((a, b) => a - b)
  const rank = medianRank(sorted.length)
  return {
    count: sorted.length,
    median: quantile(sorted, 0.5),
    low: sorted[rank - 1] ?? 0,
    high: sorted[sorted.length - rank] ?? 0,
    quartiles: [quantile(sorted, 0.25), quantile(sorted, 0.75)],
  }
}
