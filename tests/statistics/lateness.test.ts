import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { evenEdges, histogram, median, quantiles } from '../../lib/statistics/index.ts'

const numbers = fc.array(fc.integer({ min: -50, max: 400 }), { minLength: 1, maxLength: 80 })

describe('quantiles', () => {
  test('rise with the share, lie among the numbers, agree with the median, and order changes nothing', () => {
    fc.assert(
      fc.property(numbers, (given) => {
        const [least, low, middle, high, greatest] = quantiles(given, [0, 0.1, 0.5, 0.9, 1]) as [number, number, number, number, number]
        expect(least).toBe(Math.min(...given))
        expect(greatest).toBe(Math.max(...given))
        expect([least, low, middle, high, greatest]).toEqual([least, low, middle, high, greatest].toSorted((a, b) => a - b))
        expect(middle).toBe(median(given))
        expect(quantiles(Float64Array.from(given.toReversed()), [0.1, 0.9])).toEqual([low, high])
      }),
    )
  })

  test('leave what they were given as it was', () => {
    const given = Object.freeze([3, 1, 2])
    expect(quantiles(given, [0.5, 0])).toEqual([2, 1])
    expect(quantiles(given, [])).toEqual([])
  })

  test.each([
    ['no number', [], 0.5],
    ['none', [1, Number.NaN], 0.5],
    ['one without end', [1, Number.POSITIVE_INFINITY], 0.5],
    ['a share above 1', [1], 1.1],
    ['a share that is none', [1], Number.NaN],
  ])('refuse %s', (_why, given, share) => {
    expect(() => quantiles(given, [share])).toThrow(RangeError)
  })
})

describe('histogram', () => {
  test('an edge belongs to the bin above it; before the first and from the last the bins are open', () => {
    expect(histogram([-3, 0, 6, 7, 13.5, 14, 900], [0, 7, 14])).toEqual([
      { from: null, below: 0, count: 1 },
      { from: 0, below: 7, count: 2 },
      { from: 7, below: 14, count: 2 },
      { from: 14, below: null, count: 2 },
    ])
    expect(histogram([1, 2], [])).toEqual([{ from: null, below: null, count: 2 }])
  })

  test('every number lies in one bin', () => {
    fc.assert(
      fc.property(numbers, fc.uniqueArray(fc.integer({ min: -60, max: 420 }), { maxLength: 30 }), (given, edges) => {
        const rising = edges.toSorted((a, b) => a - b)
        const bins = histogram(given, rising)
        expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(given.length)
        for (const { from, below, count } of bins) {
          expect(count).toBe(given.filter((one) => one >= (from ?? Number.NEGATIVE_INFINITY) && one < (below ?? Number.POSITIVE_INFINITY)).length)
        }
      }),
    )
  })

  test.each([[[1, 1]], [[2, 1]], [[Number.NaN]]])('edges that do not rise: %j', (edges) => {
    expect(() => histogram([1], edges)).toThrow(RangeError)
  })

  test('a number that is none lies in no bin', () => {
    expect(() => histogram([Number.NaN], [0])).toThrow(RangeError)
  })
})

describe('even edges', () => {
  test('whole weeks around the days', () => {
    expect(evenEdges([-2, 5, 13], 7, 12)).toEqual([-7, 0, 7, 14])
    expect(evenEdges([14], 7, 12)).toEqual([14, 21])
    expect(evenEdges([0, 100], 7, 8)).toEqual([0, 14, 28, 42, 56, 70, 84, 98, 112])
    expect(evenEdges([], 7, 12)).toEqual([])
  })

  test('hold every number in at most as many bins as asked', () => {
    fc.assert(
      fc.property(numbers, fc.integer({ min: 1, max: 30 }), fc.integer({ min: 2, max: 20 }), (given, width, most) => {
        const edges = evenEdges(given, width, most)
        expect(edges.length - 1).toBeLessThanOrEqual(most)
        const bins = histogram(given, edges)
        expect([bins.at(0)?.count, bins.at(-1)?.count]).toEqual([0, 0])
      }),
    )
  })

  test('no width, too few bins, no number', () => {
    expect(() => evenEdges([1], 0, 5)).toThrow(RangeError)
    expect(() => evenEdges([1], 7, 1)).toThrow(RangeError)
    expect(() => evenEdges([Number.POSITIVE_INFINITY], 7, 5)).toThrow(RangeError)
  })
})
