import { normalShareBelow } from './normal.ts'

/** Whether a series goes one way: later minus earlier signs, counted over all pairs. */
export interface MannKendall {
  /** Pairs that rise minus pairs that fall. */
  readonly s: number
  /** Of `s` where nothing goes either way, corrected for ties. */
  readonly variance: number
  /** Normal deviate with continuity correction; 0 where every value is the same. */
  readonly z: number
  /** Two-sided, by the normal approximation: rough below about ten values. */
  readonly p: number
}

function tieSizes(values: readonly number[]): number[] {
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts.values()]
}

const spreadOf = (n: number): number => n * Math.max(n - 1, 0) * (2 * n + 5)

/** The Mann-Kendall test over values oldest first. Mann 1945, Econometrica 13:245; Kendall, Rank Correlation Methods, 1975. */
export function mannKendall(values: readonly number[]): MannKendall {
  let s = 0
  values.forEach((later, at) => {
    for (const earlier of values.slice(0, at)) s += Math.sign(later - earlier)
  })
  const variance = tieSizes(values).reduce((left, size) => left - spreadOf(size), spreadOf(values.length)) / 18
  const z = variance === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance)
  return { s, variance, z, p: Math.min(1, 2 * normalShareBelow(-Math.abs(z))) }
}
