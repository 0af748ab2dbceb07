import { expect, test } from 'vitest'
import { mannKendall, theilSen } from '../../lib/statistics/index.ts'
import reference from './reference/stats_trend.json' with { type: 'json' }

const sets = Object.entries(reference.sets)

// Source: Sen, J Am Stat Assoc 1968;63:1379, ranks by Gilbert 1987; computed in R 4.2.2.
test.each(sets)('Theil-Sen, %s', (_name, { t, y, theil_sen: expected }) => {
  const found = theilSen(t.map((x, at) => ({ x, y: y[at] ?? Number.NaN })))
  const [low, high] = found?.interval ?? []
  expect(found?.slope).toBeCloseTo(expected.slope_per_day, 12)
  expect(low).toBeCloseTo(expected.ci_gilbert_interpolated_per_day[0] ?? Number.NaN, 9)
  expect(high).toBeCloseTo(expected.ci_gilbert_interpolated_per_day[1] ?? Number.NaN, 9)
})

// Source: Mann 1945, Kendall 1975; checked in R 4.2.2 against cor.test(method = "kendall", continuity = TRUE).
test.each(sets)('Mann-Kendall, %s', (_name, { y, mann_kendall: expected }) => {
  const { s, variance, z, p } = mannKendall(y)
  expect(s).toBe(expected.S)
  expect(variance).toBeCloseTo(expected.var_S, 10)
  expect(z).toBeCloseTo(expected.Z_continuity_corrected, 10)
  expect(p).toBeCloseTo(expected.p_two_sided, 8)
})
