/** Numbers from `from` (included) to `below` (not included); null where the bin is open to that side. */
export interface Bin {
  readonly from: number | null
  readonly below: number | null
  readonly count: number
}

/**
 * How many numbers lie in each bin between rising edges, before the first and from the last on, so that the counts always sum to the numbers. One bin for no edge.
 * Throws RangeError for a number that is none and for edges that do not rise.
 */
export function histogram(numbers: ArrayLike<number>, edges: readonly number[]): readonly Bin[] {
  if (edges.some((edge, at) => !(edge > (edges[at - 1] ?? Number.NEGATIVE_INFINITY)))) throw new RangeError('the edges of a histogram rise')
  const counts = new Array<number>(edges.length + 1).fill(0)
  for (let at = 0; at < numbers.length; at++) {
    const number = numbers[at] as number
    if (Number.isNaN(number)) throw new RangeError('a number that is none lies in no bin')
    let [low, high] = [0, edges.length]
    while (low < high) {
      const middle = (low + high) >> 1
      if ((edges[middle] as number) <= number) low = middle + 1
      else high = middle
    }
    counts[low] = (counts[low] as number) + 1
  }
  return counts.map((count, at) => ({ from: edges[at - 1] ?? null, below: edges[at] ?? null, count }))
}

/**
 * Edges at multiples of `width` from below the least number to above the greatest, the width doubled until there are at most `most` bins between them: weeks of days
 * stay whole weeks. None for no number. Throws RangeError for a number that is not finite, a width of 0 or below, or `most` below 2.
 */
export function evenEdges(numbers: ArrayLike<number>, width: number, most: number): number[] {
  if (!(width > 0) || !(most >= 2)) throw new RangeError(`${most} bins of ${width} are no bins`)
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (let at = 0; at < numbers.length; at++) {
    const number = numbers[at] as number
    if (!Number.isFinite(number)) throw new RangeError('a number that is not finite has no place')
    if (number < least) least = number
    if (number > greatest) greatest = number
  }
  if (numbers.length === 0) return []
  const binsOf = (wide: number) => Math.floor(greatest / wide) + 1 - Math.floor(least / wide)
  let wide = width
  while (binsOf(wide) > most) wide *= 2
  const first = Math.floor(least / wide)
  return Array.from({ length: binsOf(wide) + 1 }, (_, at) => (first + at) * wide)
}
