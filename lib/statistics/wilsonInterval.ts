import { normalQuantile } from './normal.ts'

/** The ends for any `count` of `of`, 0 <= count <= of, of > 0: an effective size need not be whole. */
export function wilsonEnds(count: number, of: number, confidence: number): readonly [low: number, high: number] {
  const z = normalQuantile((1 + confidence) / 2)
  const [middle, whole] = [2 * count + z ** 2, 2 * (of + z ** 2)]
  const reach = z * Math.sqrt(z ** 2 + (4 * count * (of - count)) / of)
  return [count === 0 ? 0 : (middle - reach) / whole, count === of ? 1 : (middle + reach) / whole]
}

/**
 * Two-sided Wilson score interval of a share, `count` of `of`, without continuity correction; exactly 0 below none and 1 above all. Throws
 * RangeError unless both are whole and 0 <= count <= of, of > 0. Wilson 1927; Newcombe, Stat Med 1998;17:857, method 3.
 */
export function wilsonInterval(count: number, of: number, confidence = 0.95): readonly [low: number, high: number] {
  if (!Number.isInteger(count) || !Number.isInteger(of) || count < 0 || of <= 0 || count > of) throw new RangeError(`${count} of ${of} is no share`)
  return wilsonEnds(count, of, confidence)
}
