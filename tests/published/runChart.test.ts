import { expect, test } from 'vitest'
import { runChart } from '../../lib/statistics/index.ts'

/** `n` values off their median, one half below it and then the other half above. */
const half = (n: number) => Array.from({ length: n }, (_, at) => (at < n / 2 ? -1 : 1))

// Anhoej and Olesen, PLoS ONE 2014;9:e113825 (from memory): with 24 values a run of more than 8 or fewer than 8 crossings is unusual.
test('24 values', () => {
  expect(runChart(half(24))?.limits).toEqual({ longestRun: 8, crossings: 8 })
})

// Their limits of the longest run, as tables that teach the method print them: the first and the last count of each limit.
test.each([
  [10, 10, 6],
  [12, 22, 7],
  [24, 44, 8],
  [46, 90, 9],
  [92, 104, 10],
])('from %i to %i useful values the longest usual run is %i', (first, last, longestRun) => {
  expect([first, last].map((n) => runChart(half(n))?.limits?.longestRun)).toEqual([longestRun, longestRun])
})

/** The 5 % point of binomial(n, 1/2) in whole numbers: where 20 x the sum of coefficients reaches 2 to the n. */
function exactPoint(n: number): number {
  let [coefficient, sum, at] = [1n, 1n, 0n]
  while (20n * sum < 2n ** BigInt(n)) {
    coefficient = (coefficient * (BigInt(n) - at)) / (at + 1n)
    at += 1n
    sum += coefficient
  }
  return Number(at)
}

// 13 values: fewer than three crossings, as Wentzel-Larsen and Anhoej tell of the rules (Science Trends, on PLoS ONE 2019;14:e0223233).
test('the fewest usual crossings are those of exact whole numbers, to 520 values: ten years of weeks', () => {
  expect(exactPoint(13 - 1)).toBe(3)
  for (let n = 10; n <= 520; n += 2) expect([n, runChart(half(n))?.limits?.crossings]).toEqual([n, exactPoint(n - 1)])
})
