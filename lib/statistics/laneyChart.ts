import { type ControlChart, controlPoint } from './controlPoint.ts'
import { binomialError, pooledShare, type Sample } from './pChart.ts'

export interface LaneyChart extends ControlChart {
  /** How much more (above 1) or less the samples vary from one to the next than a binomial count does; the limits of the p-chart are stretched by it. */
  readonly sigmaZ: number
}

/** The mean range of two normal values, in standard deviations: 2 / sqrt(pi) as tables print it. */
const D2 = 1.128

/**
 * Laney's p' chart, for large samples that vary by more than chance: shares as fractions, in the order of time. Null with fewer than two samples of something, or where
 * none or all were counted, which leave nothing to estimate it from. Throws RangeError for a count that is none of its size. Laney, Quality Engineering 2002;14:531.
 */
export function laneyChart(samples: readonly Sample[]): LaneyChart | null {
  const centre = pooledShare(samples)
  const sampled = samples.filter(({ of }) => of > 0)
  if (centre === null || centre === 0 || centre === 1 || sampled.length < 2) return null
  const scores = sampled.map(({ count, of }) => (count / of - centre) / binomialError(centre, of))
  const ranges = scores.slice(1).map((score, at) => Math.abs(score - (scores[at] ?? 0)))
  const sigmaZ = ranges.reduce((sum, range) => sum + range, 0) / ranges.length / D2
  const points = samples.map(({ count, of }) => controlPoint(of === 0 ? null : count / of, centre, sigmaZ * binomialError(centre, of), 1))
  return { centre, sigmaZ, points }
}
