import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN, PLAN_CHOICES, planDifferences, planOfValues, readPlanValues, valuesOf } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'

const USUAL = valuesOf(DEFAULT_PLAN)
const says = (changes: Readonly<Record<string, unknown>>) => {
  const read = readPlanValues({ ...USUAL, ...changes })
  return read.ok ? [] : read.problems.map((problem) => `${problem.id} ${problem.says}`)
}
const EVERY = 'treatment.0.every'

describe('the plan Lowmark comes with', () => {
  test('is within its own bounds, and comes back from its values as it was', () => {
    const read = readPlanValues(JSON.parse(JSON.stringify(USUAL)))
    expect(read).toEqual({ ok: true, values: USUAL })
    expect(planOfValues(USUAL, DEFAULT_PLAN)).toEqual(DEFAULT_PLAN)
  })

  test('has every number of it among the choices, each once, with words and a reason for its bounds', () => {
    expect(PLAN_CHOICES.map(({ id }) => id).toSorted()).toEqual(Object.keys(USUAL).toSorted())
    expect(Object.keys(USUAL).filter((id) => id.startsWith('threshold.'))).toHaveLength(Object.keys(DEFAULT_PLAN.thresholds).length)
    for (const { id, asks, why, usual } of PLAN_CHOICES) {
      expect([id, usual]).toEqual([id, USUAL[id]])
      expect(Math.min(asks.length, why.length)).toBeGreaterThanOrEqual(5)
    }
  })

  test('rows have names of their own that never repeat', () => {
    expect(new Set(DEFAULT_PLAN.rows.map(({ id }) => id)).size).toBe(DEFAULT_PLAN.rows.length)
  })
})

describe('an interval', () => {
  test.each([
    [{ days: 6 }, false],
    [{ days: 7 }, true],
    [{ months: 0 }, false],
    [{ months: 1 }, true],
    [{ months: 60 }, true],
    [{ months: 61 }, false],
    [{ days: 1826 }, true],
    [{ days: 1827 }, false],
  ])('of %o: %s', (every, allowed) => {
    expect(says({ [EVERY]: every })).toEqual(
      allowed ? [] : [`${EVERY} must be from 7 days to 60 months: tests within a week say the same, and after 5 years nobody is followed`],
    )
  })

  test.each([
    ['a fraction', { days: 28.5 }],
    ['a text', { days: '28' }],
    ['weeks', { weeks: 4 }],
    ['both', { days: 28, months: 1 }],
    ['a bare number', 28],
    ['nothing', null],
    ['not a number', { days: Number.NaN }],
    ['endless', { months: Number.POSITIVE_INFINITY }],
  ])('that is %s is not one', (_, every) => {
    expect(says({ [EVERY]: every })).toEqual([`${EVERY} is not a whole number of days or months`])
  })

  test.each([
    [{ 'smouldering-low.1.until': { months: 9 } }, []],
    [
      { 'smouldering-low.1.until': { months: 8 } },
      ['smouldering-low.1.until ends before its first test: every 6 months does not fit before 8 months after the beginning'],
    ],
    [{ 'smouldering-imaging.0.until': { months: 12 } }, []],
    [
      { 'smouldering-imaging.0.until': { months: 11 } },
      ['smouldering-imaging.0.until ends before its first test: every 12 months does not fit before 11 months after the beginning'],
    ],
    [{ 'smouldering-imaging.0.until': { months: 120 } }, []],
  ] as const)('a step that ends has room for its first test: %o', (changes, problems) => {
    expect(says(changes)).toEqual(problems)
  })
})

describe('grace and thresholds', () => {
  test.each([
    ['grace.percent', 0, 100],
    ['grace.atMostDays', 0, 90],
    ['threshold.baselineBeforeDays', 7, 180],
    ['threshold.baselineAfterDays', 0, 60],
    ['threshold.baselineAroundDays', 7, 365],
    ['threshold.antibodyMonths', 0, 24],
    ['threshold.largeRiseTimes', 1, 10],
    ['threshold.kidneyInjuryDays', 7, 365],
    ['threshold.secondSampleDays', 7, 90],
    ['threshold.evolvingLightChainMgL', 0, 1000],
    ['threshold.riskStepDays', 7, 365],
    ['threshold.projectionSamples', 3, 12],
    ['threshold.projectionMonths', 3, 36],
    ['threshold.projectionPercent', 50, 99],
    ['threshold.attributionWorsePercent', 5, 100],
    ['threshold.attributionDays', 7, 365],
  ])('%s goes from %i to %i, and one step further is refused with the reason', (id, least, most) => {
    expect([says({ [id]: least }), says({ [id]: most })]).toEqual([[], []])
    for (const beyond of [least - 1, most + 1])
      expect(says({ [id]: beyond })[0]).toMatch(new RegExp(`^${id} must be from ${least} to ${most} .+: .{10,}`))
    for (const none of [least + 0.5, `${least}`, null, Number.NaN]) expect(says({ [id]: none })).toEqual([`${id} is not a whole number`])
  })

  test('the ratio is held against one of two published intervals', () => {
    expect(says({ 'threshold.ratioInterval': 'graded' })).toEqual([])
    expect(says({ 'threshold.ratioInterval': 'none' })).toEqual(['threshold.ratioInterval is none of the choices'])
  })
})

test('everything that is wrong is told at once, and what is unknown too', () => {
  const given = { [EVERY]: { days: 1 }, 'grace.percent': 101, 'threshold.attributionDays': 'x', 'treatment.7.every': { days: 28 }, toString: 1 }
  expect(says(given).map((text) => text.split(' ')[0])).toEqual([
    'treatment.7.every',
    'toString',
    EVERY,
    'grace.percent',
    'threshold.attributionDays',
  ])
})

test('a place that is not mentioned stays as Lowmark comes', () => {
  expect(readPlanValues({ 'grace.percent': 10 })).toEqual({ ok: true, values: { ...USUAL, 'grace.percent': 10 } })
})

describe('a plan of the clinic', () => {
  const values = { ...USUAL, 'mgus-low.1.every': { months: 12 }, 'grace.percent': 20, 'threshold.secondSampleDays': 21 }
  const plan = planOfValues(values, { version: '2', from: day('2027-01-01') })

  test('keeps whom a row is for, its tests and the order', () => {
    const shape = ({ rows }: typeof plan) => rows.map(({ id, name, for: whom, groups, steps }) => [id, name, whom, groups, steps.length])
    expect(shape(plan)).toEqual(shape(DEFAULT_PLAN))
  })

  test('names the clinic as the source of what it set, and leaves the other sources', () => {
    expect(plan.rows[0]?.source).toBe('(this clinic)')
    expect(plan.rows.slice(1).map(({ source }) => source)).toEqual(DEFAULT_PLAN.rows.slice(1).map(({ source }) => source))
  })

  test('carries its numbers', () => {
    expect(plan.rows[0]?.steps[1]).toEqual({ every: { months: 12 }, until: null })
    expect(plan.grace).toEqual({ percent: 20, atMostDays: 30 })
    expect(plan.thresholds).toEqual({ ...DEFAULT_PLAN.thresholds, secondSampleDays: 21 })
    expect(valuesOf(plan)).toEqual(values)
  })

  test('tells its differences in words, in the order of the plan', () => {
    expect(planDifferences(USUAL, values).map(({ about, asks, was, becomes }) => `${about}: ${asks} ${was} -> ${becomes}`)).toEqual([
      'MGUS, low risk: then, every 24 months -> 12 months',
      'Grace: A test may be late by this share of its interval 25 % -> 20 %',
      'Thresholds: A second sample is expected this long after the first one that raised a finding 28 days -> 21 days',
    ])
    expect(planDifferences(values, values)).toEqual([])
  })

  test('30 days and 1 month are not the same', () => {
    expect(planDifferences({ ...USUAL, [EVERY]: { days: 30 } }, { ...USUAL, [EVERY]: { months: 1 } })).toHaveLength(1)
  })
})
