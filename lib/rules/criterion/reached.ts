import { normalQuantile } from '../../statistics/index.ts'

/** Places of the standard normal distribution that stand for 16 equally likely parts, one in the middle of each. */
const MIDDLES = Array.from({ length: 16 }, (_, at) => normalQuantile((at + 0.5) / 16))

/**
 * Probability, 0 to 1, that a true reference, its logarithm normal with mean `log` and standard deviation `error`, reaches what `needed` asks above it
 * when its logarithm rises by `risen`.
 */
export function reached(log: number, error: number, risen: number, needed: (reference: number) => number): number {
  let count = 0
  for (const z of MIDDLES) {
    const reference = log + z * error
    if (Math.exp(reference + risen) >= needed(Math.exp(reference))) count += 1
  }
  return count / MIDDLES.length
}
