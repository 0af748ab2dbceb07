import { describe, expect, test } from 'vitest'
import { kaplanMeier, logRank, type Observed, type Scale, survivalQuantile } from '../../lib/statistics/index.ts'
import reference from './reference/stats_km_freireich.json' with { type: 'json' }

// Weeks of remission of 42 children with leukaemia: Freireich, Blood 1963;21:699; MASS::gehan. Numbers by R 4.2.2, survival 3.5-3.
const arm = ({ time, event }: { time: readonly number[]; event: readonly number[] }): Observed => ({ times: time, outcomes: event })
const [SIX_MP, PLACEBO] = [arm(reference.input.six_mp), arm(reference.input.placebo)]
const POOLED: Observed = {
  times: [...Array.from(SIX_MP.times), ...Array.from(PLACEBO.times)],
  outcomes: [...Array.from(SIX_MP.outcomes), ...Array.from(PLACEBO.outcomes)],
}
const ARMS = [
  ['6-MP', SIX_MP, reference.six_mp],
  ['placebo', PLACEBO, reference.placebo],
] as const
const SCALES: readonly [Scale, 'plain' | 'log' | 'log_log'][] = [
  ['plain', 'plain'],
  ['log', 'log'],
  ['log-log', 'log_log'],
]

/** To 1e-9, or null where the reference has none. */
function expectClose(found: number | null | undefined, expected: number | null): void {
  if (expected === null) expect(found).toBe(null)
  else expect(found).toBeCloseTo(expected, 9)
}

describe.each(ARMS)('%s', (_name, observed, expected) => {
  test.each(SCALES)('every step, interval %s', (scale, name) => {
    const { steps, size, events } = kaplanMeier(observed, scale)
    expect(size).toBe(21)
    expect(events).toBe(expected.steps.reduce((sum, step) => sum + step.n_event, 0))
    expect(steps.map(({ time, atRisk, events: at, censored }) => [time, atRisk, at, censored])).toEqual(
      expected.steps.map((step) => [step.time, step.n_risk, step.n_event, step.n_censor]),
    )
    expected.steps.forEach((step, at) => {
      const found = steps[at]
      expectClose(found?.survival, step.S)
      expectClose(found?.standardError, step.se_greenwood_S)
      expectClose(found?.interval?.[0] ?? null, step[`lower_${name}`])
      expectClose(found?.interval?.[1] ?? null, step[`upper_${name}`])
    })
  })
})

const QUANTILES = [...ARMS, ['both arms', POOLED, reference.pooled] as const]
describe.each(QUANTILES)('the quartiles of %s', (_name, observed, { quantiles }) => {
  test.each(SCALES)('band %s', (scale, name) => {
    const curve = kaplanMeier(observed, scale)
    const [q25, median, q75] = [0.25, 0.5, 0.75].map((share) => survivalQuantile(curve, share))
    for (const [found, expected] of [
      [q25, quantiles[name].q25],
      [median, quantiles[name].median],
      [q75, quantiles[name].q75],
    ] as const) {
      expect(found).toEqual({ time: expected.estimate, low: expected.lower, high: expected.upper })
    }
  })
})

test('log-rank of the two arms, 16.79 as published', () => {
  const { chiSquare, degrees, p, groups } = logRank([SIX_MP, PLACEBO])
  expect(chiSquare?.toFixed(2)).toBe('16.79')
  expect(chiSquare).toBeCloseTo(reference.logrank.chisq, 9)
  expect(degrees).toBe(1)
  expect(p).toBeCloseTo(reference.logrank.p, 12)
  groups.forEach((group, at) => {
    expect([group.size, group.observed]).toEqual([reference.logrank.n[at], reference.logrank.observed[at]])
    expect(group.expected).toBeCloseTo(reference.logrank.expected[at] ?? Number.NaN, 9)
  })
})

// The placebo arm in two halves, every other child: the statistic of three groups worked out in exact fractions (Python), p of two degrees of freedom exp(-x / 2).
test('log-rank of three groups', () => {
  const half = (from: number): Observed => ({
    times: Array.from(PLACEBO.times).filter((_, at) => at % 2 === from),
    outcomes: Array.from(PLACEBO.outcomes).filter((_, at) => at % 2 === from),
  })
  const { chiSquare, degrees, p, groups } = logRank([SIX_MP, half(0), half(1)])
  expect(chiSquare).toBeCloseTo(16.796315412375122, 9)
  expect(degrees).toBe(2)
  expect(p).toBeCloseTo(0.00022528197769832982, 10)
  expect(groups.map(({ expected }) => expected.toFixed(9))).toEqual(['19.250500948', '5.653749912', '5.095749140'])
})

// Follow-up itself, with events as the open cases: the reverse Kaplan-Meier of Schemper and Smith, Control Clin Trials 1996;17:343.
test('the median follow-up of the 6-MP arm is 25 weeks', () => {
  const open = { times: SIX_MP.times, outcomes: Array.from(SIX_MP.outcomes, (event) => 1 - event) }
  expect(survivalQuantile(kaplanMeier(open)).time).toBe(reference.median_follow_up_reverse_km_6mp.median)
})
