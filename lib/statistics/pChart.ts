import { type ControlChart, controlPoint } from './controlPoint.ts'

/** A sample: `count` of `of`, whole numbers, 0 <= count <= of. */
export interface Sample {
  readonly count: number
  readonly of: number
}

/** All counts over all sizes, not the mean of the shares. Null where nothing was sampled; throws RangeError for a count that is none of its size. */
export function pooledShare(samples: readonly Sample[]): number | null {
  for (const { count, of } of samples) {
    if (!Number.isInteger(count) || !Number.isInteger(of) || count < 0 || count > of) throw new RangeError(`${count} of ${of} is no share`)
  }
  const whole = samples.reduce((sum, { of }) => sum + of, 0)
  return whole === 0 ? null : samples.reduce((sum, { count }) => sum + count, 0) / whole
}

export const binomialError = (share: number, of: number): number => Math.sqrt((share * (1 - share)) / of)

/**
 * A p-chart, shares as fractions: each sample has limits of its own size. Null where nothing was sampled; throws RangeError for a count that is none of its size.
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2.
 */
export function pChart(samples: readonly Sample[]): ControlChart | null {
  const centre = pooledShare(samples)
  if (centre === null) return null
  return { centre, points: samples.map(({ count, of }) => controlPoint(of === 0 ? null : count / of, centre, binomialError(centre, of), 1)) }
}
