import { expect, test } from 'vitest'
import { doublingDays, logLinearFit, slopeInterval } from '../../lib/statistics/index.ts'

const points = (...values: number[]) => values.map((value, at) => ({ on: `2020-01-${String(1 + at * 10).padStart(2, '0')}`, value }))

test('a value that doubles every ten days', () => {
  expect(doublingDays(points(1, 2, 4))).toBeCloseTo(10, 10)
})

test.each([
  ['two points', points(1, 2)],
  ['three points, one of them 0', points(0, 1, 2)],
  ['a falling value', points(4, 2, 1)],
  ['a level value', points(4, 4, 4)],
  ['three values of one day', [1, 2, 3].map((value) => ({ on: '2020-01-01', value }))],
])('none: %s', (_why, given) => {
  expect(doublingDays(given)).toBe(null)
})

test('two points give a slope and no interval', () => {
  const fit = logLinearFit(points(1, 2))
  expect(fit?.slope).toBeCloseTo(Math.LN2 / 10, 12)
  expect(fit && slopeInterval(fit)).toBe(null)
})

test('a value of 0 has no logarithm', () => {
  expect(() => logLinearFit(points(0, 1))).toThrow(RangeError)
})
