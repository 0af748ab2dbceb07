import { expect, test } from 'vitest'
import { poissonInterval } from '../../lib/statistics/index.ts'

// Exact 95 % intervals of a Poisson count: Ulm, Am J Epidemiol 1990;131:373, two decimals; 1 and 10 (from memory).
test.each([
  [0, 0, 3.69],
  [1, 0.03, 5.57],
  [5, 1.62, 11.67],
  [10, 4.8, 18.39],
])('%i events: %f to %f', (events, low, high) => {
  const [least, most] = poissonInterval(events)
  expect(least).toBeCloseTo(low, 2)
  expect(most).toBeCloseTo(high, 2)
})

test('an interval of 90 % is narrower than of 95 %', () => {
  const [wide, narrow] = [poissonInterval(7), poissonInterval(7, 0.9)]
  expect(narrow[0]).toBeGreaterThan(wide[0])
  expect(narrow[1]).toBeLessThan(wide[1])
})

test.each([-1, 2.5, Number.NaN])('%f is no count', (events) => {
  expect(() => poissonInterval(events)).toThrow('is no count of events')
})
