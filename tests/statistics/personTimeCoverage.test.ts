import fc from 'fast-check'
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { describe, expect, test } from 'vitest'
import { personTimeCoverage, wilsonInterval } from '../../lib/statistics/index.ts'

const person = fc.nat({ max: 700 }).chain((total) => fc.record({ covered: fc.nat({ max: total }), total: fc.constant(total) }))

describe('laws', () => {
  test('the interval lies from 0 to 1 around the share, is no narrower than of single days, and order changes next to nothing', () => {
    fc.assert(
      fc.property(fc.array(person, { minLength: 1, maxLength: 60 }), (persons) => {
        const found = personTimeCoverage(persons)
        if (found === null) {
          expect(persons.every(({ total }) => total === 0)).toBe(true)
          return
        }
        expect(found.share).toBe(found.covered / found.total)
        expect(personTimeCoverage(persons.toReversed())?.designEffect ?? 0).toBeCloseTo(found.designEffect ?? 0, 9)
        if (found.interval === null) return
        const [[low, high], [lowOfDays, highOfDays]] = [found.interval, wilsonInterval(found.covered, found.total)]
        expect(low).toBeGreaterThanOrEqual(0)
        expect(low).toBeLessThanOrEqual(lowOfDays)
        expect(high).toBeGreaterThanOrEqual(highOfDays)
        expect(high).toBeLessThanOrEqual(1)
      }),
    )
  })
})

// People whose own shares spread evenly between two ends, followed for one month to two years: the true share is the middle of the ends.
test('in trials the interval hardly ever misses the truth, where one of single days misses it nearly always', () => {
  const generator = xoroshiro128plus(20261126)
  const between = (low: number, high: number) => low + uniformFloat64(generator) * (high - low)
  for (const [low, high, people] of [
    [0, 1, 20],
    [0.5, 1, 40],
    [0.8, 1, 200],
  ] as const) {
    let [missed, missedOfDays] = [0, 0]
    for (let trial = 0; trial < 400; trial++) {
      const persons = Array.from({ length: people }, () => {
        const total = Math.floor(between(30, 730))
        return { covered: Math.round(total * between(low, high)), total }
      })
      const found = personTimeCoverage(persons)
      if (found?.interval == null) continue
      const misses = ([from, to]: readonly [number, number]) => (low + high) / 2 < from || (low + high) / 2 > to
      if (misses(found.interval)) missed++
      if (misses(wilsonInterval(found.covered, found.total))) missedOfDays++
    }
    // 5 % of 400 are 20; twice that is more than chance does (binomial, five standard deviations).
    expect(missed).toBeLessThan(42)
    expect(missedOfDays).toBeGreaterThan(200)
  }
})

describe('no interval', () => {
  const of = (n: number, covered: number, total: number) => Array.from({ length: n }, (_, at) => ({ covered: covered - (at % 2) * 20, total }))

  test('fewer than twenty people', () => {
    expect(personTimeCoverage(of(19, 50, 100))).toMatchObject({ people: 19, interval: null })
    expect(personTimeCoverage(of(20, 50, 100))?.interval).toEqual([expect.any(Number), expect.any(Number)])
  })

  test('hardly a day uncovered', () => {
    const persons = [{ covered: 60, total: 100 }, ...Array.from({ length: 29 }, () => ({ covered: 100, total: 100 }))]
    expect(personTimeCoverage(persons)).toMatchObject({ people: 30, interval: null })
  })

  test('all covered, none covered, one person', () => {
    const all = Array.from({ length: 30 }, () => ({ covered: 9, total: 9 }))
    expect(personTimeCoverage(all)).toEqual({ people: 30, covered: 270, total: 270, share: 1, designEffect: null, interval: null })
    expect(personTimeCoverage(all.map(({ total }) => ({ covered: 0, total })))).toMatchObject({ share: 0, designEffect: null, interval: null })
    expect(personTimeCoverage([{ covered: 1, total: 2 }])).toMatchObject({ share: 0.5, designEffect: null, interval: null })
  })

  test('nobody, or nobody with a day', () => {
    expect([personTimeCoverage([]), personTimeCoverage([{ covered: 0, total: 0 }])]).toEqual([null, null])
  })
})

test.each([
  { covered: 3, total: 2 },
  { covered: -1, total: 2 },
  { covered: Number.NaN, total: 2 },
  { covered: 1, total: Number.POSITIVE_INFINITY },
])('no days: %j', (one) => {
  expect(() => personTimeCoverage([one])).toThrow(RangeError)
})
