import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator'

/** Draws for one patient. The same seed gives the same draws in the same order. */
export interface Chance {
  /** In [low, high). */
  between(low: number, high: number): number
  /** A whole number, both ends included. */
  whole(low: number, high: number): number
  /** Standard normal. */
  normal(): number
  /** Log-normal: the median, and the standard deviation of the natural logarithm. */
  logNormal(median: number, spread: number): number
  happens(probability: number): boolean
  oneOf<T>(list: readonly [T, ...T[]]): T
  /** One of the words, by its weight. */
  weighted<T>(list: readonly (readonly [weight: number, value: T])[]): T
}

function chanceFrom(generator: RandomGenerator): Chance {
  const uniform = () => uniformFloat64(generator)
  // Box and Muller 1958; 1 - u keeps the logarithm away from 0.
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
  return {
    between: (low, high) => low + uniform() * (high - low),
    whole: (low, high) => uniformInt(generator, low, high),
    normal,
    logNormal: (median, spread) => median * Math.exp(spread * normal()),
    happens: (probability) => uniform() < probability,
    oneOf: (list) => list[uniformInt(generator, 0, list.length - 1)] ?? list[0],
    weighted(list) {
      let left = uniform() * list.reduce((sum, [weight]) => sum + weight, 0)
      for (const [weight, value] of list) {
        left -= weight
        if (left < 0) return value
      }
      const last = list.at(-1)
      if (last === undefined) throw new RangeError('nothing to draw from')
      return last[1]
    },
  }
}

/** One stream a patient, far apart in the generator's period, so that no patient's draws depend on another's. */
export function* chancesFrom(seed: number): Generator<Chance, never> {
  const generator = xoroshiro128plus(seed)
  for (;;) {
    yield chanceFrom(generator.clone())
    generator.jump()
  }
}
