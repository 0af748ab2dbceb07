import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { LEAST_SHOWN } from '../../lib/followup/index.ts'
import { lateBins } from '../../lib/followup/lateBins.ts'
import { figures } from './worked.ts'

const times = (count: number, days: number): number[] => new Array<number>(count).fill(days)

describe('days late in bins', () => {
  test('weeks, where each holds enough', () => {
    expect(lateBins([...times(9, 8), ...times(5, 13), ...times(6, 20)])).toEqual([
      { from: 0, below: 7, count: 0 },
      { from: 7, below: 14, count: 14 },
      { from: 14, below: 21, count: 6 },
    ])
  })

  test('a few far out stand together with nearer ones in an open last bin', () => {
    const far = lateBins([...times(60, 10), ...times(5, 16), ...times(3, 30), 400])
    expect(far).toEqual([
      { from: 0, below: 7, count: 0 },
      { from: 7, below: 14, count: 60 },
      { from: 14, below: null, count: 9 },
    ])
  })

  test('are made wider where weeks hold too few', () => {
    expect(lateBins([8, 9, 15, 16, 22, 29, 30, 36, 37, 50])).toEqual([
      { from: 0, below: 28, count: 5 },
      { from: 28, below: 56, count: 5 },
    ])
  })

  test('four tests that were late are not told by their days, five are', () => {
    expect(lateBins([8, 8, 8, 8])).toEqual([])
    expect(lateBins([8, 8, 8, 8, 8])).toEqual([
      { from: 0, below: 7, count: 0 },
      { from: 7, below: 14, count: 5 },
    ])
  })

  // docs/follow-up.md: 35 days four times, 47 once.
  test('of the clinic of six', () => {
    expect(figures().lateBins).toEqual([
      { from: 0, below: 28, count: 0 },
      { from: 28, below: 56, count: 5 },
    ])
  })

  test('law: every bin is empty or holds five at least, all are as wide, and together they hold every test', () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 700 }), { maxLength: 60 }), (days) => {
        const bins = lateBins(days)
        expect(bins.every(({ count }) => count === 0 || count >= LEAST_SHOWN)).toBe(true)
        expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(days.length < LEAST_SHOWN ? 0 : days.length)
        const widths = bins.flatMap(({ from, below }) => (from === null || below === null ? [] : [below - from]))
        expect(new Set(widths).size).toBeLessThanOrEqual(1)
        for (const { from, below, count } of bins) {
          expect(days.filter((day) => day >= (from ?? 0) && day < (below ?? Number.POSITIVE_INFINITY))).toHaveLength(count)
        }
      }),
    )
  })
})
