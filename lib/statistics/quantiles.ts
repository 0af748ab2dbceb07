/**
 * The numbers below which the given shares of them lie, one for each share: the median at 0.5, the 90th percentile at 0.9. Numbers in any order, shares from 0 to 1.
 * Between two ranks on the straight line, (n - 1) x share + 1: type 7 of Hyndman and Fan, Am Stat 1996;50:361, which R and spreadsheets give unasked, so that anybody
 * can check it, and which agrees with the usual median. Throws RangeError for no number, one that is not finite, or a share outside.
 */
export function quantiles(numbers: ArrayLike<number>, shares: readonly number[]): number[] {
  if (numbers.length === 0) throw new RangeError('no number has a quantile')
  const sorted = Float64Array.from(numbers).sort()
  // Sorted, a number that is none comes last.
  const [first, last] = [sorted[0] as number, sorted.at(-1) as number]
  if (!Number.isFinite(first) || !Number.isFinite(last)) throw new RangeError('a number that is not finite has no place')
  return shares.map((share) => {
    if (!(share >= 0 && share <= 1)) throw new RangeError(`${share} is no share from 0 to 1`)
    const place = (sorted.length - 1) * share
    const [below, above] = [sorted[Math.floor(place)] as number, sorted[Math.ceil(place)] as number]
    return below + (place - Math.floor(place)) * (above - below)
  })
}
