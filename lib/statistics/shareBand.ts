import { normalQuantile } from './normal.ts'

export type Interval = readonly [low: number, high: number]

/** On which scale an interval is symmetrical: of log(-log share), of log share, or of the share itself. */
export type Scale = 'log-log' | 'log' | 'plain'

/**
 * The two-sided pointwise interval of a share with its standard error, both as fractions; ends are cut at 0 and 1. Null where the share is 0 or 1, because
 * then the standard error says nothing. Throws RangeError unless the confidence is between 0 and 1. Kalbfleisch and Prentice, 1980 (log-log); Borgan and
 * Liestoel, Scand J Stat 1990;17:35, for how the scales compare (both from memory).
 */
export function shareBand(scale: Scale, confidence: number): (share: number, error: number) => Interval | null {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`${confidence} is no confidence between 0 and 1`)
  const z = normalQuantile((1 + confidence) / 2)
  return (share, error) => {
    if (!(share > 0 && share < 1)) return null
    const reach = z * error
    if (scale === 'plain') return [Math.max(0, share - reach), Math.min(1, share + reach)]
    if (scale === 'log') return [share * Math.exp(-reach / share), Math.min(1, share * Math.exp(reach / share))]
    const turn = Math.exp(-reach / (share * Math.log(share)))
    return [share ** turn, share ** (1 / turn)]
  }
}
