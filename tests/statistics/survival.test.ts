import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { atRiskTable, kaplanMeier, logRank, type Observed, type Scale, survivalAt, survivalQuantile } from '../../lib/statistics/index.ts'

const observed = (cases: readonly (readonly [time: number, outcome: number])[]): Observed => ({
  times: cases.map(([time]) => time),
  outcomes: cases.map(([, outcome]) => outcome),
})
// Few distinct days, so that ties are common, and now and then a time between two days, which is counted another way.
const time = fc.oneof({ weight: 5, arbitrary: fc.nat({ max: 12 }) }, { weight: 1, arbitrary: fc.double({ min: 0, max: 12, noNaN: true }) })
const cases = (most = 2) => fc.array(fc.tuple(time, fc.nat({ max: most - 1 })), { minLength: 1, maxLength: 60 })
const scale = fc.constantFrom<Scale>('log-log', 'log', 'plain')

describe('laws of Kaplan-Meier', () => {
  test('the curve never rises, lies from 0 to 1 and within its interval; everybody is at risk until over', () => {
    fc.assert(
      fc.property(cases(), scale, (given, on) => {
        const { steps } = kaplanMeier(observed(given), on)
        let [before, left] = [1, given.length]
        for (const step of steps) {
          expect(step.survival).toBeLessThanOrEqual(before)
          expect(step.survival).toBeGreaterThanOrEqual(0)
          expect(step.atRisk).toBe(left)
          if (step.interval !== null) {
            const [low, high] = step.interval
            expect(low).toBeGreaterThanOrEqual(0)
            expect(high).toBeLessThanOrEqual(1)
            expect(low).toBeLessThanOrEqual(step.survival + 1e-12)
            expect(high).toBeGreaterThanOrEqual(step.survival - 1e-12)
          }
          before = step.survival
          left -= step.events + step.censored
        }
        expect(left).toBe(0)
      }),
    )
  })

  test('where nothing is censored it is the share left over, with the binomial standard error', () => {
    fc.assert(
      fc.property(fc.array(time, { minLength: 1, maxLength: 60 }), (times) => {
        const n = times.length
        for (const step of kaplanMeier({ times, outcomes: times.map(() => 1) }).steps) {
          const share = times.filter((one) => one > step.time).length / n
          expect(step.survival).toBeCloseTo(share, 12)
          if (share > 0) expect(step.standardError).toBeCloseTo(Math.sqrt((share * (1 - share)) / n), 12)
        }
      }),
    )
  })

  test('the order of the cases changes nothing, nor whether the arrays are typed', () => {
    fc.assert(
      fc.property(cases(), fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (given, chance) => {
        const shuffled = given.map((one) => [chance.next().value ?? 0, one] as const).sort(([a], [b]) => a - b)
        const expected = kaplanMeier(observed(given))
        const other = observed(shuffled.map(([, one]) => one))
        expect(kaplanMeier({ times: Float64Array.from(other.times), outcomes: Uint8Array.from(other.outcomes) })).toEqual(expected)
      }),
    )
  })

  test('whole days are counted as other numbers are sorted: halves of days tell the same', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat({ max: 12 }), fc.nat({ max: 1 })), { minLength: 1, maxLength: 60 }), (given) => {
        const half = kaplanMeier(observed([...given.map(([days, outcome]) => [days / 2, outcome] as const), [0.25, 0]]))
        const whole = kaplanMeier(observed([...given.map(([days, outcome]) => [days * 2, outcome] as const), [1, 0]]))
        expect(half.steps.map((step) => ({ ...step, time: step.time * 4 }))).toEqual(whole.steps)
      }),
    )
  })

  test('the median lies within its interval', () => {
    fc.assert(
      fc.property(cases(), scale, (given, on) => {
        const { time: median, low, high } = survivalQuantile(kaplanMeier(observed(given), on))
        if (median !== null && low !== null) expect(low).toBeLessThanOrEqual(median)
        if (median !== null && high !== null) expect(high).toBeGreaterThanOrEqual(median)
      }),
    )
  })
})

describe('the curve at any time', () => {
  const curve = kaplanMeier({ times: [3, 3, 5, 8, 8], outcomes: [1, 0, 1, 0, 1] })

  test.each([
    [0, 5, 0, 0, 1],
    [2.9, 5, 0, 0, 1],
    [3, 5, 1, 1, 0.8],
    [4, 3, 1, 1, 0.8],
    [8, 2, 3, 2, 0.8 * (2 / 3) * 0.5],
  ])('at %f: at risk %i, events %i, censored %i', (at, atRisk, events, censored, survival) => {
    const found = survivalAt(curve, at)
    expect(found).toMatchObject({ time: at, atRisk, events, censored })
    expect(found.survival).toBeCloseTo(survival, 12)
  })

  test('after the last time nobody knows, unless nobody is left', () => {
    expect(survivalAt(curve, 8.1)).toMatchObject({ atRisk: 0, events: 3, censored: 2, survival: null, standardError: null, interval: null })
    const over = kaplanMeier({ times: [1, 2], outcomes: [1, 1] })
    expect(survivalAt(over, 9)).toMatchObject({ atRisk: 0, survival: 0, standardError: null, interval: null })
  })

  test('the table has a row a time, as asked', () => {
    expect(atRiskTable(curve, [8, 0]).map(({ time: at, atRisk }) => [at, atRisk])).toEqual([
      [8, 2],
      [0, 5],
    ])
  })

  test('of nobody', () => {
    const empty = kaplanMeier({ times: [], outcomes: [] })
    expect(empty).toMatchObject({ size: 0, events: 0, steps: [] })
    expect(survivalAt(empty, 1)).toMatchObject({ atRisk: 0, survival: null, standardError: null })
    expect(survivalQuantile(empty)).toEqual({ time: null, low: null, high: null })
  })
})

describe('a quantile on a level stretch', () => {
  test('is its middle, although a product of shares is not one half to the last digit', () => {
    const times = Array.from({ length: 20 }, (_, at) => at + 1)
    expect(survivalQuantile(kaplanMeier({ times, outcomes: times.map(() => 1) })).time).toBe(10.5)
  })

  test('that ends the curve reaches to the last time seen', () => {
    expect(survivalQuantile(kaplanMeier({ times: [1, 2, 3, 6], outcomes: [1, 1, 0, 0] })).time).toBe(4)
  })
})

describe('log-rank', () => {
  const group = fc.array(fc.tuple(time, fc.nat({ max: 1 })), { maxLength: 30 }).map(observed)

  test('observed and expected sum to the same, p lies from 0 to 1, and the order of groups changes nothing', () => {
    fc.assert(
      fc.property(fc.array(group, { minLength: 2, maxLength: 4 }), (groups) => {
        const [one, other] = [logRank(groups), logRank(groups.toReversed())]
        const sum = (pick: (told: (typeof one.groups)[number]) => number) => one.groups.reduce((all, told) => all + pick(told), 0)
        expect(sum(({ observed: seen }) => seen)).toBeCloseTo(
          sum(({ expected }) => expected),
          9,
        )
        expect(other.degrees).toBe(one.degrees)
        if (one.chiSquare === null || one.p === null) expect(other.chiSquare).toBe(null)
        else {
          expect(one.chiSquare).toBeGreaterThanOrEqual(-1e-9)
          expect(Math.abs((other.chiSquare ?? 0) - one.chiSquare)).toBeLessThan(1e-6 * (1 + one.chiSquare))
          expect(one.p).toBeGreaterThanOrEqual(0)
          expect(one.p).toBeLessThanOrEqual(1)
        }
      }),
    )
  })

  test('two groups that are the same do not differ', () => {
    const same = { times: [1, 2, 3, 4], outcomes: [1, 0, 1, 1] }
    expect(logRank([same, same])).toMatchObject({ chiSquare: 0, degrees: 1, p: 1 })
  })

  test.each([
    [
      'no event',
      [
        { times: [1], outcomes: [0] },
        { times: [2], outcomes: [0] },
      ],
    ],
    [
      'one group is gone before the first event',
      [
        { times: [1], outcomes: [0] },
        { times: [2, 3], outcomes: [1, 1] },
      ],
    ],
    [
      'nobody',
      [
        { times: [], outcomes: [] },
        { times: [], outcomes: [] },
      ],
    ],
    [
      'all at once',
      [
        { times: [2], outcomes: [1] },
        { times: [2], outcomes: [1] },
      ],
    ],
  ])('nothing to compare: %s', (_why, groups) => {
    expect(logRank(groups)).toMatchObject({ chiSquare: null, p: null })
  })

  test('a group that was never at risk at an event is left out of the degrees', () => {
    const [a, b, gone] = [
      { times: [2, 3], outcomes: [1, 1] },
      { times: [4, 5], outcomes: [1, 0] },
      { times: [1], outcomes: [0] },
    ]
    const [without, withIt] = [logRank([a, b]), logRank([a, gone, b])]
    expect(withIt.degrees).toBe(1)
    expect(withIt.chiSquare).toBeCloseTo(without.chiSquare ?? Number.NaN, 12)
  })
})

describe('what is no observation', () => {
  test.each([
    ['a negative time', { times: [-1], outcomes: [1] }],
    ['a time that is no number', { times: [Number.NaN], outcomes: [1] }],
    ['a time without end', { times: [Number.POSITIVE_INFINITY], outcomes: [0] }],
    ['an outcome of neither kind', { times: [1], outcomes: [2] }],
    ['half an outcome', { times: [1], outcomes: [0.5] }],
    ['a time without an outcome', { times: [1, 2], outcomes: [1] }],
  ])('%s', (_why, given) => {
    expect(() => kaplanMeier(given)).toThrow(RangeError)
    expect(() => logRank([given, { times: [1], outcomes: [1] }])).toThrow(RangeError)
  })

  test('one group, no confidence, no share, no time', () => {
    const good = { times: [1], outcomes: [1] }
    expect(() => logRank([good])).toThrow(RangeError)
    expect(() => kaplanMeier(good, 'log', 1)).toThrow(RangeError)
    expect(() => survivalQuantile(kaplanMeier(good), 1)).toThrow(RangeError)
    expect(() => survivalAt(kaplanMeier(good), -1)).toThrow(RangeError)
  })
})

// 20,000 patients, ten years of occasions: the promise is under a second. The best of three, since the machine has other work.
test('three million times of whole days go through in under a second', () => {
  const times = Float64Array.from({ length: 3_000_000 }, (_, at) => (at * 7919) % 3653)
  const outcomes = Uint8Array.from({ length: times.length }, (_, at) => (at % 5 < 3 ? 1 : 0))
  const took = [0, 1, 2].map(() => {
    const from = performance.now()
    const curve = kaplanMeier({ times, outcomes })
    expect(curve.size).toBe(times.length)
    expect(survivalQuantile(curve).time).toBeGreaterThan(0)
    return performance.now() - from
  })
  expect(Math.min(...took)).toBeLessThan(1000)
})
