import { describe, expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { PRECURSOR } from '../../lib/rules/criterion/beliefs.ts'
import { possibleCourses } from '../../lib/rules/criterion/possibleCourses.ts'
import { trueRiseBetween } from '../../lib/rules/criterion/trueRiseBetween.ts'
import { evolvingLightChain, evolvingSerum } from '../../lib/rules/evolving.ts'
import { says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { history } from '../builders/history.ts'
import { evolvingToldOf, type PrecursorSetting } from './evolvingTruth.ts'
import { shareTrue } from './knownTruth.ts'
import { mgus, on, smouldering } from './patients.ts'
import { currentBy, foundBy, TODAY } from './ruleTable.ts'

const SEED = 20261125
const course = traceCourse(history(mgus([])), day(TODAY))
const [serumRule, lightChainRule] = [evolvingSerum(course), evolvingLightChain(course)]

// Total CVs of stable patients: Katzmann, Clin Chem 2011;57:1687. dFLC meets its criterion only where it doubles within nine months.
const SERUM = { rule: serumRule, cv: 0.081, start: [15, 45], doublingYears: [1, 6] } as const
const DFLC = { rule: lightChainRule, cv: 0.284, start: [50, 600], doublingYears: [0.25, 3] } as const
const SETTINGS: Readonly<Record<string, PrecursorSetting>> = {
  'serum every 3 months': { ...SERUM, everyDays: 91 },
  'serum every 6 months': { ...SERUM, everyDays: 182 },
  'dFLC every 3 months': { ...DFLC, everyDays: 91 },
  'dFLC every 6 months': { ...DFLC, everyDays: 182 },
}

describe.each(Object.entries(SETTINGS))('findings of 1,500 invented patients whose truth is known, %s', (_name, setting) => {
  const told = evolvingToldOf(setting, 1500, SEED)

  test('of those said to be 8 in 10 or more, at least 7 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0.8, 1)
    expect(count).toBeGreaterThan(200)
    expect(share).toBeGreaterThan(0.7)
  })

  test('of those said to be 2 in 10 or less, at most 2 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0, 0.2)
    expect(count).toBeGreaterThan(200)
    expect(share).toBeLessThan(0.2)
  })

  test('of those between 4 and 6 in 10, between 2 and 8 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0.4, 0.6)
    expect(count).toBeGreaterThan(40)
    expect(share).toBeGreaterThan(0.2)
    expect(share).toBeLessThan(0.8)
  })

  test('over all findings as many are true as were said to be, to 1 in 10', () => {
    const said = told.reduce((sum, { probability }) => sum + probability, 0) / told.length
    expect(Math.abs(shareTrue(told, 0, 1).share - said)).toBeLessThan(0.1)
  })
})

test('the measure notices a probability that knows half of the noise', () => {
  const setting: PrecursorSetting = { ...SERUM, rule: { ...serumRule, cv: 0.0405 }, everyDays: 91 }
  expect(shareTrue(evolvingToldOf(setting, 1500, SEED), 0.8, 1).share).toBeLessThan(0.7)
})

const serum = (values: Readonly<Record<string, string>>, more = {}) => on('serum-m-protein', 'g/L', values, more)
const probabilityOf = (values: Readonly<Record<string, string>>) => currentBy('evolving-m-protein', smouldering(serum(values)))[0]?.facts.probability
const QUARTERS = ['2024-06-03', '2024-09-03', '2024-12-03', '2025-03-03', '2025-06-03']
/** Values every three months from June 2024 on. */
const quarterly = (...values: readonly string[]) => Object.fromEntries(values.map((value, at) => [QUARTERS[at] ?? '', value]))

/** So many samples without noise, every three months, from 20 g/L on. */
const exactly = (count: number, growth: (days: number) => number) =>
  Array.from({ length: count }, (_, at) => ({ day: at * 91, log: Math.log(20) + growth(at * 91) }))
const needs25 = (reference: number) => reference + Math.max(0.25 * reference, 5)

describe('growth that has gone on since before the reference', () => {
  const doubling = (years: number) => exactly(25, (days) => (Math.LN2 * days) / (years * 365.25))

  // 25 % within a year is a doubling time of 3.1 years.
  test('counts by how far it rises between the two days, not above the level it began with', () => {
    expect(trueRiseBetween(doubling(2), 20, 0.081, needs25)).toBeGreaterThan(0.95)
    expect(trueRiseBetween(doubling(5), 20, 0.081, needs25)).toBeLessThan(0.05)
    expect(trueRiseBetween(doubling(5), 0, 0.081, needs25)).toBeGreaterThan(0.95)
  })

  test('is told from its samples before the reference', () => {
    const slow = doubling(2)
    expect(trueRiseBetween(slow, 20, 0.081, needs25)).toBeGreaterThan(trueRiseBetween(slow.slice(20), 0, 0.081, needs25))
  })
})

test('samples before a clear fall do not hide a rise since', () => {
  const rising = exactly(8, (days) => Math.max(0, days - 364) * (Math.LN2 / 500))
  const fallen = Array.from({ length: 8 }, (_, at) => ({ day: at * 91 - 728, log: Math.log(40) }))
  expect(trueRiseBetween([...fallen, ...rising], 12, 0.081, needs25)).toBeCloseTo(trueRiseBetween(rising, 4, 0.081, needs25), 9)
})

test('one course in five grows from the first sample on before any is seen', () => {
  const alone = possibleCourses(
    [
      { day: 0, log: 3 },
      { day: 0, log: 3 },
    ],
    0.081,
    PRECURSOR,
  )
  expect(alone.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
  expect(alone.filter(({ growth }) => growth > 0).reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(0.2, 9)
})

test('the higher the value and the more samples show it, the more probable', () => {
  const rising = [
    quarterly('20', '20', '20', '25'),
    quarterly('20', '20', '20', '28'),
    quarterly('20', '20', '20', '28', '28'),
    quarterly('20', '20', '20', '34', '44'),
  ].map(probabilityOf)
  expect(rising).toEqual([...rising].sort())
  expect(new Set(rising).size).toBe(rising.length)
  expect(rising.every((one) => /^[01]\.\d\d$/.test(one ?? ''))).toBe(true)
})

test('a reference that is low by chance does not make a rise', () => {
  expect(Number(probabilityOf(quarterly('20', '21', '16', '20', '21.2')))).toBeLessThan(0.05)
})

// From 32 to 37 g/L meets 10 % within 6 months; 25 % would ask for 40 g/L.
test('the probability is of the bar that is told', () => {
  const [within6] = currentBy('evolving-m-protein', smouldering(serum(quarterly('32', '32', '37'))))
  expect(within6?.facts).toMatchObject({ level: '37 g/L', referenceOn: '2024-09-03' })
  const samples = [32, 32, 37].map((value, at) => ({ day: [0, 92, 183][at] ?? 0, log: Math.log(value) }))
  const deviation = Math.sqrt(Math.log1p(0.081 ** 2))
  const asked = (share: number) => trueRiseBetween(samples, 1, deviation, (reference) => reference + Math.max(share * reference, 5)).toFixed(2)
  expect(within6?.facts.probability).toBe(asked(0.1))
  expect(asked(0.1)).not.toBe(asked(0.25))
})

test('both rules say it in words, and past findings too', () => {
  const chains = (kappa: readonly string[]) => [
    ...on('kappa-flc', 'mg/L', quarterly(...kappa)),
    ...on('lambda-flc', 'mg/L', quarterly(...kappa.map(() => '10'))),
  ]
  const [light] = currentBy('evolving-light-chain', mgus(chains(['110', '110', '110', '500', '620'])))
  expect(light?.facts.probability).toMatch(/^[01]\.\d\d$/)
  expect(light === undefined ? '' : says(light)).toMatch(/ in 100? that the true rise exceeds the criterion\.$/)
  const [m] = currentBy('evolving-m-protein', mgus(serum(quarterly('20', '20', '34', '44'))))
  expect(m === undefined ? '' : says(m)).toMatch(/ in 100? that the true rise exceeds the criterion\.$/)
  const [past] = foundBy('evolving-m-protein', mgus(serum(quarterly('20', '20', '34', '20'))))
  expect(past).toMatchObject({ endedOn: '2025-03-03', facts: { probability: expect.stringMatching(/^[01]\.\d\d$/) } })
})

test.each([
  ['the reference is not detected', quarterly('not detected', '6')],
  ['the reference is a limit', quarterly('<20', '26')],
  ['the value is a limit', quarterly('20', '>50')],
  ['the sample before is a limit', quarterly('20', '>30', '40')],
  ['the value may be in another unit', quarterly('2', '20')],
  ['the value before may be in another unit', quarterly('2', '20', '21')],
])('no probability where %s', (_why, values) => {
  expect(currentBy('evolving-m-protein', smouldering(serum(values)))).toHaveLength(1)
  expect(probabilityOf(values)).toBe(undefined)
})

test('no probability across laboratories', () => {
  const two = [...serum(quarterly('20'), { laboratory: 'North' }), ...serum({ '2025-03-03': '27' }, { laboratory: 'South' })]
  const [changed] = currentBy('evolving-m-protein', mgus(two))
  expect(changed?.cautions).toContain('method-changed')
  expect(changed?.facts).not.toHaveProperty('probability')
})
