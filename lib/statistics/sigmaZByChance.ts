import { normalQuantile } from './normal.ts'

/** Below this a mean of moving ranges is too skewed for what follows. (ours; a test simulates it) */
const FEWEST = 8

/**
 * The sigma z of Laney's chart that chance alone seldom exceeds, in one of twenty series of that many samples; null below eight samples, which cannot tell. From the
 * variance of a mean moving range of independent normal values, (0.8264 n - 1.082) / (n - 1)^2 in units of its mean: Cryer and Ryan, J Qual Technol 1990;22:187
 * (from memory; worked out again from the covariance of neighbouring ranges).
 */
export function sigmaZByChance(samples: number): number | null {
  if (samples < FEWEST) return null
  return 1 + (normalQuantile(0.95) * Math.sqrt(0.8264 * samples - 1.082)) / (samples - 1)
}
