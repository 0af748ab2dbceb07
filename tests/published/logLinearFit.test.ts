import { expect, test } from 'vitest'
import { doublingDays, logLinearFit, slopeInterval, studentQuantile } from '../../lib/statistics/index.ts'
import reference from './reference/stats_ols_log.json' with { type: 'json' }

const series = [reference.rising, reference.flat, reference.falling, reference.three_points]

// Source: R lm(log(y) ~ days) and confint (Student t).
test.each(series)('$label', (one) => {
  const points = one.dates.map((on, at) => ({ on, value: one.values[at] ?? Number.NaN }))
  const fit = logLinearFit(points)
  if (fit === null) throw new Error('a fit was expected')
  const [low, high] = slopeInterval(fit) ?? []
  expect(fit.degrees).toBe(one.df)
  expect(fit.intercept).toBeCloseTo(one.intercept_log, 11)
  expect(fit.slope).toBeCloseTo(one.slope_log_per_day, 14)
  expect(fit.slopeError).toBeCloseTo(one.slope_se_per_day, 14)
  expect(studentQuantile(0.975, one.df)).toBeCloseTo(one.t_crit, 7)
  expect(low).toBeCloseTo(one.slope_ci95_per_day[0] ?? Number.NaN, 10)
  expect(high).toBeCloseTo(one.slope_ci95_per_day[1] ?? Number.NaN, 10)
  const doubling = doublingDays(points)
  if (one.doubling_time_days === null) expect(doubling).toBe(null)
  else expect((doubling ?? Number.NaN) / one.doubling_time_days).toBeCloseTo(1, 9)
})
