import { describe, expect, test } from 'vitest'
import { laneyChart, pChart, uChart } from '../../lib/statistics/index.ts'
import reference from './reference/stats_spc.json' with { type: 'json' }

const { nist_p_chart: nist, variable_n_p_chart: unequal, laney_p_prime: laney } = reference
const WAFERS = nist.counts.map((count) => ({ count, of: nist.n_per_sample }))

describe('p-chart', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2: 30 wafers of 50 chips.
  test('of NIST: limits 0.4102 and 0.0524, samples 15 and 23 out', () => {
    const chart = pChart(WAFERS)
    expect(chart?.centre.toFixed(4)).toBe('0.2313')
    expect(chart?.centre).toBeCloseTo(nist.pbar, 12)
    chart?.points.forEach((point, at) => {
      expect([point.high?.toFixed(4), point.low?.toFixed(4)]).toEqual(['0.4102', '0.0524'])
      expect(point.value).toBe(nist.points_p[at])
      expect(point.high).toBeCloseTo(nist.ucl, 12)
      expect(point.low).toBeCloseTo(nist.lcl, 12)
      expect([point.lowCut, point.highCut]).toEqual([false, false])
    })
    const out = chart?.points.flatMap(({ signal }, at) => (signal === null ? [] : [at + 1]))
    expect(out).toEqual(nist.out_of_control_samples_1_based)
    expect(chart?.points.filter(({ signal }) => signal === 'above')).toHaveLength(2)
  })

  // The same formula in R 4.2.2.
  test('of unequal samples: the centre pools all, each sample has its limits, those below 0 are cut and say so', () => {
    const chart = pChart(unequal.x.map((count, at) => ({ count, of: unequal.n[at] ?? 0 })))
    expect(chart?.centre).toBeCloseTo(unequal.pbar, 12)
    expect(chart?.centre).not.toBeCloseTo(unequal.mean_of_proportions_wrong, 3)
    chart?.points.forEach((point, at) => {
      expect(point.high).toBeCloseTo(unequal.ucl[at] ?? Number.NaN, 12)
      expect([point.low, point.lowCut, point.highCut]).toEqual([unequal.lcl[at], true, false])
    })
  })
})

describe("Laney's p' chart", () => {
  const samples = laney.d2_exact_2_over_sqrt_pi.points.map(({ x, n }) => ({ count: x, of: n }))
  const chart = laneyChart(samples)

  // Laney, Quality Engineering 2002;14:531, by the formula in R 4.2.2, with 1.128 as tables print it.
  test('sigma z', () => {
    expect(chart?.sigmaZ).toBeCloseTo(laney['d2_table_1.128'].sigma_z, 9)
    expect(chart?.centre).toBeCloseTo(laney['d2_table_1.128'].pbar, 12)
  })

  test('limits and signals, the limits of the reference stretched from 2 / sqrt(pi) to 1.128', () => {
    const stretch = laney.d2_exact_2_over_sqrt_pi.d2 / 1.128
    laney.d2_exact_2_over_sqrt_pi.points.forEach((expected, at) => {
      const [point, centre] = [chart?.points[at], laney.d2_exact_2_over_sqrt_pi.pbar]
      expect(point?.low).toBeCloseTo(centre + (expected.lcl_raw - centre) * stretch, 9)
      expect(point?.high).toBeCloseTo(centre + (expected.ucl_raw - centre) * stretch, 9)
      expect(point?.signal !== null).toBe(expected.signal)
    })
  })

  test('where the plain p-chart signals by the mere size of its samples', () => {
    const plain = pChart(samples)?.points.map(({ signal }) => signal !== null)
    expect(plain).toEqual(laney.d2_exact_2_over_sqrt_pi.points.map((point) => point.p_chart_signal))
    expect(plain).toContain(true)
  })

  test('on the wafers of NIST', () => {
    expect(laneyChart(WAFERS)?.sigmaZ).toBeCloseTo((reference.laney_on_nist.sigma_z * reference.laney_on_nist.d2) / 1.128, 9)
  })
})

describe('u-chart', () => {
  // Blemishes of tubs on 25 days, from a textbook's optional topic on u-charts (chapter 17, figure 17-2-1), limits as printed there, to three decimals.
  const TUBS = [87, 73, 64, 87, 81, 87, 80, 71, 96, 74, 82, 74, 66, 64, 78, 78, 98, 67, 77, 87, 85, 96, 75, 71, 84]
  const BLEMISHES = [13, 18, 11, 18, 10, 10, 8, 13, 9, 11, 13, 9, 12, 11, 13, 8, 11, 10, 16, 7, 13, 14, 13, 11, 18]
  const LOW = [26, 15, 5, 26, 21, 26, 21, 13, 32, 15, 22, 15, 8, 5, 19, 19, 33, 9, 18, 26, 25, 32, 16, 13, 24]
  const HIGH = [276, 287, 297, 276, 281, 276, 281, 289, 270, 287, 280, 287, 294, 297, 283, 283, 269, 293, 284, 276, 277, 270, 286, 289, 278]

  test('of unequal exposure, as printed', () => {
    const chart = uChart(BLEMISHES.map((events, at) => ({ events, exposure: TUBS[at] ?? 0 })))
    expect(chart?.centre).toBe(300 / 1982)
    chart?.points.forEach((point, at) => {
      // The book rounds its centre and its root on the way: one in the third decimal.
      expect(Math.abs((point.low ?? 0) * 1000 - (LOW[at] ?? 0))).toBeLessThan(1.1)
      expect(Math.abs((point.high ?? 0) * 1000 - (HIGH[at] ?? 0))).toBeLessThan(1.1)
      expect(point.signal).toBe(null)
    })
  })

  // NIST/SEMATECH e-Handbook 6.3.3.1, a c-chart, which is a u-chart of equal exposure: 25 wafers, mean 16, limits 28 and 4 (from memory).
  test('of equal exposure, the c-chart of NIST', () => {
    const counts = [16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13]
    const chart = uChart(counts.map((events) => ({ events, exposure: 1 })))
    expect([chart?.centre, chart?.points[0]?.high, chart?.points[0]?.low]).toEqual([16, 28, 4])
    expect(chart?.points.flatMap(({ signal }, at) => (signal === null ? [] : [at + 1]))).toEqual([24])
  })
})
