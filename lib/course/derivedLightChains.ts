import type { Comparator } from '../results/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import { difference, type Interval, isExact } from '../units/index.ts'
import type { Measurement, Sample } from './course.ts'
import type { InvolvedPair } from './lightChains.ts'
import { quotient } from './quotient.ts'
import { hasNumber } from './sample.ts'

function comparatorOf(value: Interval): Comparator | null {
  if (isExact(value)) return null
  return value.high === null ? '>=' : '<='
}

function derived(pairs: readonly InvolvedPair[], from: (involved: Interval, uninvolved: Interval) => Interval | null): readonly Measurement[] {
  const made: Measurement[] = []
  for (const { involved, uninvolved, sample } of pairs) {
    const value = from(involved, uninvolved)
    if (value !== null) made.push({ ...sample, value, printed: null, comparator: comparatorOf(value), words: null })
  }
  return made
}

/** Involved minus uninvolved chain, mg/L, exact, from one sample. A sample whose uninvolved chain has no upper end makes none. */
export function differenceSamples(pairs: readonly InvolvedPair[]): readonly Measurement[] {
  return derived(pairs, difference)
}

/** Involved over uninvolved chain, to 12 decimals. An uninvolved chain of 0 makes none. */
export function ratioSamples(pairs: readonly InvolvedPair[]): readonly Measurement[] {
  return derived(pairs, quotient)
}

/** The involved chain, mg/L: of each pair, and of days on which it was measured without the other one. Oldest first. */
export function involvedSamples(pairs: readonly InvolvedPair[], alone: readonly Sample[]): readonly Measurement[] {
  const paired = new Set<Day>(pairs.map((pair) => pair.on))
  const others = alone.filter(hasNumber).filter((sample) => !paired.has(sample.on))
  const samples = pairs.map((pair) => pair.sample)
  return others.length === 0 ? samples : [...samples, ...others].sort((a, b) => compareDays(a.on, b.on))
}
