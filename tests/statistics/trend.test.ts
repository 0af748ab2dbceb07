import { expect, test } from 'vitest'
import { mannKendall, median, theilSen, wilsonInterval } from '../../lib/statistics/index.ts'

const inSteps = (...values: number[]) => values.map((y, x) => ({ x, y }))

test('the median of an even count lies between the two middle numbers', () => {
  expect(median([9, 1, 4, 2])).toBe(3)
  expect(median([9, 1, 4])).toBe(4)
  expect(() => median([])).toThrow(RangeError)
})

test('one wild value leaves the slope of the others', () => {
  expect(theilSen(inSteps(1, 2, 3, 400, 5, 6, 7))?.slope).toBe(1)
})

test('five values or fewer have no rank for a 95 % interval, six have one', () => {
  expect(theilSen(inSteps(1, 2, 4, 3, 6))?.interval).toBe(null)
  expect(theilSen(inSteps(1, 2, 4, 3, 6, 7))?.interval).toEqual([expect.any(Number), expect.any(Number)])
})

test('one place, or two at one x, have no slope', () => {
  expect(theilSen([{ x: 1, y: 2 }])).toBe(null)
  expect(
    theilSen([
      { x: 1, y: 2 },
      { x: 1, y: 3 },
    ]),
  ).toBe(null)
})

test('the order of the places changes nothing', () => {
  const places = inSteps(3, 1, 4, 1, 5, 9, 2, 6)
  expect(theilSen(places.toReversed())).toEqual(theilSen(places))
})

test('values that are all the same go neither way', () => {
  expect(mannKendall([4, 4, 4, 4])).toEqual({ s: 0, variance: 0, z: 0, p: 1 })
  expect(mannKendall([])).toEqual({ s: 0, variance: 0, z: 0, p: 1 })
})

test.each([
  [1, 0],
  [-1, 4],
  [5, 4],
  [1.5, 4],
])('%d of %d is no share', (count, of) => {
  expect(() => wilsonInterval(count, of)).toThrow(RangeError)
})
