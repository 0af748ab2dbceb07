import { describe, expect, test } from 'vitest'
import { patientCharts, type Trend } from '../../lib/charts/index.ts'
import { doublingText } from '../../lib/charts/trendWords.ts'
import { type ResultRow, series } from '../builders/history.ts'
import reference from '../published/reference/stats_ols_log.json' with { type: 'json' }
import { assessed } from './assessed.ts'

const TODAY = '2025-12-31'
const MONTHS = Array.from({ length: 12 }, (_, at) => `2025-${String(at + 1).padStart(2, '0')}-01`)

/** Serum M-protein on the first of each month of 2025. */
function monthly(values: readonly string[], more: readonly ResultRow[] = []): ResultRow[] {
  return [...values.map((value, at): ResultRow => [MONTHS[at] ?? '', 'serum-m-protein', value]), ...more]
}

function trendsOf(results: readonly ResultRow[], id = 'serum-m-protein', today = TODAY): readonly Trend[] {
  const words = { diagnosis: ['2020-01-01', 'active', { heavy: 'G', light: 'kappa' }] as const, results }
  return patientCharts(assessed(words, today)).find((plan) => plan.id === id)?.trends ?? []
}

function serum(values: readonly string[], more: readonly ResultRow[] = []): Trend {
  const [trend] = trendsOf(monthly(values, more))
  if (trend === undefined) throw new Error('a trend was expected')
  return trend
}

const DOUBLING = ['10', '11', '12.3', '14', '15.1', '17.2', '19', '21.2']

describe('a value that doubles', () => {
  const trend = serum(DOUBLING)

  test('has its change, doubling time and direction in words', () => {
    expect(trend).toMatchObject({ samples: 8, from: '2025-01-01', to: '2025-08-01', cautions: [] })
    expect(trend.change).toMatch(/^\+11\.\d % \(95 % interval \+\d+\.\d % to \+\d+\.\d %\)$/)
    expect(trend.robust).toMatch(/^\+11\.\d % \(95 % interval \+\d+\.\d % to \+\d+\.\d %\)$/)
    expect(trend.doubling).toMatch(/^19\d days \(95 % interval 1[89]\d to (19|20)\d\)$/)
    expect(trend.direction).toBe('rises: chance alone would seldom do that (p below 0.001)')
  })

  test('is drawn from its first to its last sample, inside its interval', () => {
    expect(trend.curve.at(0)?.on).toBe('2025-01-01')
    expect(trend.curve.at(-1)?.on).toBe('2025-08-01')
    for (const { y, low, high } of trend.curve) {
      expect(low).toBeLessThan(y)
      expect(high).toBeGreaterThan(y)
    }
    const [ends, middle] = [trend.curve[0], trend.curve[6]].map((point) => Math.log((point?.high ?? 0) / (point?.y ?? 1)))
    expect(ends).toBeGreaterThan(middle ?? 0)
  })
})

// By hand for three samples 60 days apart: the mean of ln lies in the middle, its deviation is that of the residuals over the root of three; Student's t
// with one degree of freedom is 12.7062 (common practice).
test('the curve passes the mean in the middle, with the interval of a mean', () => {
  const [trend] = trendsOf(
    ['2025-01-01', '2025-03-02', '2025-05-01'].map((on, at): ResultRow => [on, 'serum-m-protein', ['10', '12', '13'][at] ?? '']),
  )
  const [first, second, third] = [10, 12, 13].map(Math.log) as [number, number, number]
  const mean = (first + second + third) / 3
  const deviation = Math.abs(first - 2 * second + third) / Math.sqrt(6)
  const middle = trend?.curve.find(({ on }) => on === '2025-03-02')
  expect(middle?.y).toBeCloseTo(Math.exp(mean), 9)
  expect(middle?.high).toBeCloseTo(Math.exp(mean + (12.7062 * deviation) / Math.sqrt(3)), 3)
  expect(middle?.low).toBeCloseTo(Math.exp(mean - (12.7062 * deviation) / Math.sqrt(3)), 3)
  expect(trend?.curve.at(-1)?.y).toBeCloseTo(Math.exp(mean + (third - first) / 2), 9)
})

test('the doubling time stands only where the interval of the slope leaves out 0', () => {
  const level = serum(['10', '11', '9.6', '10.4', '10.9', '9.8', '10.3'])
  expect(level.doubling).toBe("no doubling time: the slope's interval includes 0")
  expect(level.direction).toMatch(/^no direction that chance could not make \(p about \d\.\d+\)$/)
  expect(serum(DOUBLING.toReversed()).doubling).toMatch(/^no doubling time: the value falls, by half in 19\d days \(95 % interval \d+ to \d+\)$/)
  expect(serum(['10', '10.4', '10.8']).doubling).toMatch(/^\d+ days/)
})

// Source of the slopes, their intervals and the doubling times: R lm and confint (tests/published/reference).
test.each([reference.rising, reference.three_points])('the doubling time has the interval of the published fit: $label', (one) => {
  const [low = 0, high = 0] = one.slope_ci95_per_day
  const [from = 0, to = 0] = (one.doubling_time_ci95_days ?? []).map(Math.round)
  const said = doublingText(one.slope_log_per_day, [low, high])
  if (one.slope_ci_includes_zero) expect(said).toBe("no doubling time: the slope's interval includes 0")
  else expect(said).toBe(`${Math.round(one.doubling_time_days ?? 0)} days (95 % interval ${from} to ${to})`)
})

test('only the 12 months up to the latest sample count, its first day among them', () => {
  const before: ResultRow[] = [
    ['2024-01-31', 'serum-m-protein', '90'],
    ['2024-08-01', 'serum-m-protein', '9'],
  ]
  expect(serum(DOUBLING, before)).toMatchObject({ samples: 9, from: '2024-08-01' })
})

test('fewer than three samples give no slope, and say so', () => {
  const trend = serum(['10', '12'])
  expect(trend).toMatchObject({ samples: 2, change: 'fewer than 3 samples', doubling: 'fewer than 3 samples', curve: [] })
  expect(trend.cautions).toEqual(['Fewer than 3 samples with an exact value above 0: no trend can be told.'])
})

test('a limit or "not detected" is left out and named', () => {
  const trend = serum(['<1', '3', '3.3', 'not detected', '3.9'])
  expect(trend.samples).toBe(3)
  expect(trend.cautions).toEqual(['Left out, because it has no exact value above 0: 2 of 5 samples.'])
})

test('four samples are too few for a direction, whatever they do', () => {
  expect(serum(['10', '11', '12', '13']).direction).toBe('too few samples to tell a direction from chance (p about 0.089)')
})

test('one wild sample turns the fit, not the robust slope, and that is said', () => {
  const trend = serum(['10', '10.2', '10.4', '10.6', '10.8', '11', '2'])
  expect(trend.change).toMatch(/^-/)
  expect(trend.robust).toMatch(/^\+/)
  expect(trend.cautions).toContain('The two slopes point in opposite directions: a single sample may have turned the fit.')
})

test('another laboratory or method within the samples is said', () => {
  const other: ResultRow = ['2025-09-01', 'serum-m-protein', '23', 'g/L', { laboratory: 'South laboratory', method: 'capillary' }]
  const first: ResultRow[] = series('serum-m-protein', 'g/L', { '2025-01-15': '10.5' }, { laboratory: 'North laboratory', method: 'gel' })
  expect(serum(DOUBLING, [...first, other]).cautions).toEqual([
    'The laboratory changes within these samples: part of the slope may be the change.',
    'The method changes within these samples: part of the slope may be the change.',
  ])
})

test('light chains have two trends, of which the involved chain is drawn', () => {
  const chain = (analyte: 'kappa-flc' | 'lambda-flc', values: readonly number[]) =>
    values.map((value, at): ResultRow => [MONTHS[at] ?? '', analyte, String(value), 'mg/L'])
  const trends = trendsOf([...chain('kappa-flc', [200, 230, 260, 310]), ...chain('lambda-flc', [8, 9, 8, 7])], 'light-chains')
  expect(trends.map(({ name, curve }) => [name, curve.length > 0])).toEqual([
    ['dFLC', false],
    ['Involved chain (kappa)', true],
  ])
})

test('a marker without a sample has no trend, nor has a chart that follows none', () => {
  expect(trendsOf([['2025-01-01', 'haemoglobin', '120']], 'haemoglobin')).toEqual([])
  expect(trendsOf([['2025-01-01', 'haemoglobin', '120']])).toEqual([])
})
