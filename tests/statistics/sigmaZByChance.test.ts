import { describe, expect, test } from 'vitest'
import { laneyChart, sigmaZByChance } from '../../lib/statistics/index.ts'
import { chancesFrom } from '../../seed/index.ts'

const chance = chancesFrom(20).next().value

/** Sigma z of many series of samples that differ by chance alone, in rising order. */
function byChance(samples: number, series: number): readonly number[] {
  const sizes = Array.from({ length: samples }, (_, at) => 150 + (at % 7) * 20)
  const drawn = Array.from({ length: series }, () => {
    const counts = sizes.map((of) => ({ of, count: Array.from({ length: of }, () => chance.happens(0.8)).filter(Boolean).length }))
    return laneyChart(counts)?.sigmaZ ?? Number.NaN
  })
  return drawn.toSorted((a, b) => a - b)
}

describe('the sigma z that chance alone seldom exceeds', () => {
  test.each([12, 24, 48])('in about one of twenty series of %i samples, simulated', (samples) => {
    const all = byChance(samples, 1200)
    const bound = sigmaZByChance(samples) ?? Number.NaN
    const share = all.filter((sigmaZ) => sigmaZ > bound).length / all.length
    expect(share).toBeGreaterThan(0.03)
    expect(share).toBeLessThan(0.085)
  })

  test('comes down to 1 the more samples there are, and is not told from fewer than eight', () => {
    expect([sigmaZByChance(7), sigmaZByChance(8)?.toFixed(3), sigmaZByChance(24)?.toFixed(3)]).toEqual([null, '1.553', '1.310'])
    expect(sigmaZByChance(10_000) ?? 2).toBeLessThan(1.02)
  })
})
