import { expect, test } from 'vitest'
import { wilsonInterval } from '../../lib/statistics/index.ts'
import reference from './reference/stats_wilson.json' with { type: 'json' }

// Source: R 4.2.2 prop.test(correct = FALSE), equal to the closed form.
test.each(reference.cases)('$x of $n at $conf', (one) => {
  const [low, high] = wilsonInterval(one.x, one.n, one.conf)
  expect(low).toBeCloseTo(one.wilson_lower, 8)
  expect(high).toBeCloseTo(one.wilson_upper, 8)
  if (one.x === 0) expect(low).toBe(0)
  if (one.x === one.n) expect(high).toBe(1)
})

// Newcombe, Stat Med 1998;17:857, table I, method 3, to the four digits printed there.
test.each([
  [81, 263, '0.2553', '0.3662'],
  [15, 148, '0.0624', '0.1605'],
  [0, 20, '0.0000', '0.1611'],
  [1, 29, '0.0061', '0.1718'],
] as const)('Newcombe: %i of %i lies between %s and %s', (count, of, low, high) => {
  expect(wilsonInterval(count, of).map((end) => end.toFixed(4))).toEqual([low, high])
})
