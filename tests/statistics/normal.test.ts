import { expect, test } from 'vitest'
import { normalQuantile, normalShareBelow } from '../../lib/statistics/index.ts'

// Standard normal table, to ten digits: R 4.2.2 pnorm and qnorm.
test.each([
  [0, 0.5],
  [1.96, 0.9750021049],
  [-1.2815515655, 0.1],
  [-3, 0.001349898],
])('below %s lies %s', (z, share) => {
  expect(normalShareBelow(z)).toBeCloseTo(share, 9)
})

test.each([
  [0.9, 1.2815515655],
  [0.95, 1.644853627],
  [0.975, 1.9599639845],
])('a share of %s lies below %s', (share, z) => {
  expect(normalQuantile(share)).toBeCloseTo(z, 8)
})
