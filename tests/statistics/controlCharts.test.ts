import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type ControlChart, laneyChart, pChart, runChart, uChart } from '../../lib/statistics/index.ts'

const sample = fc.nat({ max: 40 }).chain((of) => fc.record({ count: fc.nat({ max: of }), of: fc.constant(of) }))
const samples = fc.array(sample, { maxLength: 30 })
const exposed = fc.array(fc.record({ events: fc.nat({ max: 30 }), exposure: fc.double({ min: 0.01, max: 40, noNaN: true }) }), {
  minLength: 1,
  maxLength: 30,
})

/** Limits hold the centre, values beyond them signal, a cut limit stands at its edge. */
function expectSound(chart: ControlChart, most: number): void {
  for (const { value, low, high, lowCut, highCut, signal } of chart.points) {
    if (value === null || low === null || high === null) {
      expect([value, low, high, signal]).toEqual([null, null, null, null])
      continue
    }
    expect(low).toBeLessThanOrEqual(chart.centre)
    expect(high).toBeGreaterThanOrEqual(chart.centre)
    expect(low).toBeGreaterThanOrEqual(0)
    expect(high).toBeLessThanOrEqual(most)
    if (lowCut) expect(low).toBe(0)
    if (highCut) expect(high).toBe(most)
    expect(signal).toBe(value > high ? 'above' : value < low ? 'below' : null)
  }
}

describe('laws of control charts', () => {
  test('p-chart and p-prime chart', () => {
    fc.assert(
      fc.property(samples, (given) => {
        for (const chart of [pChart(given), laneyChart(given)]) {
          if (chart === null) continue
          expect(chart.points).toHaveLength(given.length)
          expectSound(chart, 1)
        }
      }),
    )
  })

  test('u-chart', () => {
    fc.assert(
      fc.property(exposed, (given) => {
        const chart = uChart(given)
        if (chart !== null) expectSound(chart, Number.POSITIVE_INFINITY)
      }),
    )
  })

  test('the order of the samples moves no limit of the p-chart or the u-chart', () => {
    fc.assert(
      fc.property(samples, exposed, (shares, rates) => {
        expect(pChart(shares.toReversed())?.points.toReversed()).toEqual(pChart(shares)?.points)
        const [one, other] = [uChart(rates), uChart(rates.toReversed())]
        expect(other?.centre).toBeCloseTo(one?.centre ?? Number.NaN, 9)
      }),
    )
  })

  test('with a sigma z of 1 the p-prime chart would be the p-chart: its limits are stretched by it', () => {
    const given = [
      { count: 30, of: 100 },
      { count: 45, of: 110 },
      { count: 36, of: 90 },
    ]
    const [plain, stretched] = [pChart(given), laneyChart(given)]
    expect(stretched?.sigmaZ).toBeGreaterThan(0)
    stretched?.points.forEach(({ high }, at) => {
      const [narrow, centre] = [plain?.points[at]?.high ?? 0, plain?.centre ?? 0]
      expect((high ?? 0) - centre).toBeCloseTo((narrow - centre) * stretched.sigmaZ, 12)
    })
  })
})

describe('nothing to chart, and what is none', () => {
  test('no sample, or samples of nothing', () => {
    expect([pChart([]), laneyChart([]), uChart([])]).toEqual([null, null, null])
    expect([pChart([{ count: 0, of: 0 }]), uChart([{ events: 0, exposure: 0 }])]).toEqual([null, null])
  })

  test('a month of nobody is a gap, and Laney looks past it', () => {
    const [a, b, gap] = [
      { count: 3, of: 10 },
      { count: 9, of: 12 },
      { count: 0, of: 0 },
    ]
    expect(pChart([a, gap, b])?.points[1]).toEqual({ value: null, low: null, high: null, lowCut: false, highCut: false, signal: null })
    expect(laneyChart([a, gap, b])?.sigmaZ).toBe(laneyChart([a, b])?.sigmaZ)
  })

  test('all or none counted: limits on the centre, and nothing for Laney to estimate from', () => {
    const all = [
      { count: 5, of: 5 },
      { count: 9, of: 9 },
    ]
    expect(pChart(all)?.points.map(({ low, high, signal }) => [low, high, signal])).toEqual([
      [1, 1, null],
      [1, 1, null],
    ])
    expect(laneyChart(all)).toBe(null)
    expect(laneyChart([{ count: 1, of: 2 }])).toBe(null)
  })

  test.each([
    { count: 3, of: 2 },
    { count: -1, of: 2 },
    { count: 1.5, of: 2 },
    { count: 1, of: Number.NaN },
  ])('no share: %j', (given) => {
    expect(() => pChart([given])).toThrow(RangeError)
    expect(() => laneyChart([given])).toThrow(RangeError)
  })

  test.each([
    { events: 1, exposure: 0 },
    { events: -1, exposure: 1 },
    { events: 0.5, exposure: 1 },
    { events: 1, exposure: -1 },
    { events: 1, exposure: Number.POSITIVE_INFINITY },
  ])('no rate: %j', (given) => {
    expect(() => uChart([given])).toThrow(RangeError)
  })
})

describe('run chart', () => {
  const flat = (n: number, value: number) => Array.from({ length: n }, () => value)

  test('a shift: one long run, one crossing, and where it stands', () => {
    const chart = runChart([...flat(10, 1), ...flat(10, 3)])
    expect(chart).toMatchObject({
      median: 2,
      useful: 20,
      longestRun: { length: 10, from: 0, to: 9 },
      crossings: 1,
      runTooLong: true,
      crossingsTooFew: true,
    })
  })

  test('to and fro: neither', () => {
    const chart = runChart(Array.from({ length: 24 }, (_, at) => at % 2))
    expect(chart).toMatchObject({ useful: 24, crossings: 23, runTooLong: false, crossingsTooFew: false })
  })

  // Twelve on either side, so that the median lies between them.
  test.each([
    ['as long as usual', [8, 6, 2, 3, 2, 3], false],
    ['one longer', [9, 6, 2, 3, 1, 3], true],
  ])('a run %s among 24', (_which, runs, tooLong) => {
    const values = runs.flatMap((length, at) => flat(length, at % 2))
    expect(runChart(values)).toMatchObject({ median: 0.5, useful: 24, limits: { longestRun: 8 }, longestRun: { from: 0 }, runTooLong: tooLong })
  })

  test('values on the median and gaps are left out, and a run goes on over them', () => {
    const chart = runChart([1, 2, null, 1, 3, 2, 3])
    expect(chart).toMatchObject({ median: 2, useful: 4, crossings: 1, longestRun: { length: 2, from: 0, to: 3 }, limits: null, runTooLong: false })
  })

  test('too few, none, all the same, and no number', () => {
    expect(runChart([...flat(4, 1), ...flat(5, 9)])).toMatchObject({ limits: null, runTooLong: false, crossingsTooFew: false })
    expect([runChart([]), runChart([null])]).toEqual([null, null])
    expect(runChart(flat(20, 5))).toMatchObject({ useful: 0, longestRun: null, crossings: 0, limits: null })
    expect(() => runChart([Number.NaN])).toThrow(RangeError)
  })

  test('backwards it tells the same', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.nat({ max: 9 })), { minLength: 1, maxLength: 60 }), (values) => {
        const [one, other] = [runChart(values), runChart(values.toReversed())]
        expect(other).toEqual(
          one === null ? null : { ...one, longestRun: one.longestRun && { ...one.longestRun, from: expect.any(Number), to: expect.any(Number) } },
        )
      }),
    )
  })
})
