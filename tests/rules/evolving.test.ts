import { expect, test } from 'vitest'
import { DEFAULT_THRESHOLDS, traceCourse } from '../../lib/course/index.ts'
import { courseFindings, type RuleId, says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, every4Weeks, mgus, on, smouldering, unrecorded } from './patients.ts'
import { currentBy, foundBy, TODAY, testRule } from './ruleTable.ts'

const serum = (values: Readonly<Record<string, string>>, unit = 'g/L') => on('serum-m-protein', unit, values)
const once = { state: 'unconfirmed', window: 'within-30-days', certainty: 'certain' } as const
const first = '2024-06-03'

// Ravi 2016, Blood Cancer J 6:e454.
testRule('evolving-m-protein', {
  fires: [
    { why: '5 g/L from 30 g/L, 6 months to the day', given: smouldering(serum({ [first]: '30', '2024-12-03': '35' })), shows: once },
    {
      why: '10 % from 60 g/L',
      given: smouldering(serum({ [first]: '60', '2024-12-03': '66' })),
      shows: { ...once, cautions: ['one-sample', 'inside-noise'] },
    },
    { why: 'a step above 10 %', given: smouldering(serum({ [first]: '60', '2024-12-03': '66.1' })), shows: once },
    { why: 'in g/dL: 3.5 from 3.0', given: smouldering(serum({ [first]: '3.0', '2024-12-03': '3.5' }, 'g/dL')), shows: once },
    {
      why: '25 % from 20 g/L, 12 months to the day',
      given: mgus(serum({ [first]: '20', '2025-06-03': '25' })),
      shows: { ...once, cautions: ['one-sample'] },
    },
    { why: 'in g/dL: 2.5 from 2.0', given: mgus(serum({ [first]: '2.0', '2025-06-03': '2.5' }, 'g/dL')), shows: once },
    { why: '5 g/L from 10 g/L, which is more than 25 %', given: mgus(serum({ [first]: '10', '2025-06-03': '15' })), shows: once },
    { why: '25 % from 40 g/L after 6 months', given: smouldering(serum({ [first]: '40', '2025-06-03': '50' })), shows: once },
    {
      why: 'twice, against one sample before both',
      given: smouldering(serum({ [first]: '20', '2024-09-03': '25', '2025-06-03': '25' })),
      shows: { ...once, state: 'confirmed', since: '2024-09-03', cautions: [] },
    },
    {
      why: 'twice, but no one sample lies before both within 12 months of each',
      given: smouldering(serum({ [first]: '20', '2025-05-03': '25', '2025-06-20': '32' })),
      shows: { ...once, cautions: ['one-sample'] },
    },
    { why: 'from below a limit, surely', given: mgus(serum({ [first]: '<20', '2025-06-03': '25' })), shows: { certainty: 'certain' } },
    {
      why: 'from below a limit, perhaps',
      given: mgus(serum({ [first]: '<20', '2025-06-03': '24.9' })),
      shows: { certainty: 'possible', cautions: ['one-sample', 'censored'] },
    },
    { why: 'from not detected the amount alone decides', given: mgus(serum({ [first]: 'not detected', '2025-06-03': '5' })), shows: once },
    {
      why: 'ten times as much: the unit is suspect',
      given: mgus(serum({ [first]: '2', '2025-06-03': '20' })),
      shows: { cautions: ['one-sample', 'unit-suspect'] },
    },
    {
      why: 'another laboratory',
      given: mgus([...serum({ [first]: '20' }), ...on('serum-m-protein', 'g/L', { '2025-06-03': '26' }, { laboratory: 'South laboratory' })]),
      shows: { cautions: ['one-sample', 'method-changed'] },
    },
  ],
  quiet: [
    { why: 'a step below 5 g/L', given: smouldering(serum({ [first]: '30', '2024-12-03': '34.9' })) },
    { why: '3.4 from 3.0 g/dL', given: smouldering(serum({ [first]: '3.0', '2024-12-03': '3.4' }, 'g/dL')) },
    { why: 'a step below 10 %', given: smouldering(serum({ [first]: '60', '2024-12-03': '65.9' })) },
    { why: '6 months and a day', given: smouldering(serum({ [first]: '30', '2024-12-04': '35' })) },
    { why: 'a step below 30 g/L', given: smouldering(serum({ [first]: '29.9', '2024-12-03': '34.9' })) },
    { why: 'a step below 25 %', given: mgus(serum({ [first]: '20', '2025-06-03': '24.9' })) },
    { why: '2.4 from 2.0 g/dL', given: mgus(serum({ [first]: '2.0', '2025-06-03': '2.4' }, 'g/dL')) },
    { why: '12 months and a day', given: mgus(serum({ [first]: '20', '2025-06-04': '25' })) },
    { why: 'a step below 5 g/L from 10', given: mgus(serum({ [first]: '10', '2025-06-03': '14.9' })) },
    { why: 'the latest sample no longer shows it', given: mgus(serum({ [first]: '20', '2025-03-03': '26', '2025-06-03': '20' })) },
    { why: 'active disease', given: active(serum({ [first]: '20', '2025-06-03': '30' })) },
    { why: 'no phase', given: unrecorded(serum({ [first]: '20', '2025-06-03': '30' })) },
  ],
})

test('of several earlier samples the one it exceeds most is told', () => {
  const [found] = currentBy('evolving-m-protein', mgus(serum({ [first]: '20', '2024-09-03': '18', '2024-12-03': '19', '2025-03-03': '25' })))
  expect(found?.evidence.map(({ role, value, collectedOn }) => [role, value, collectedOn])).toEqual([
    ['reference', '18', '2024-09-03'],
    ['current', '25', '2025-03-03'],
  ])
  expect(found?.excess).toBeCloseTo(25 / 23, 12)
})

test('a rise that has passed says when it ended', () => {
  expect(foundBy('evolving-m-protein', mgus(serum({ [first]: '20', '2025-03-03': '26', '2025-06-03': '20' })))).toMatchObject([
    { since: '2025-03-03', endedOn: '2025-06-03', state: 'unconfirmed' },
  ])
})

/** Kappa whose difference from lambda 10 is the number asked for. */
const dflc = (values: Readonly<Record<string, string>>, unit = 'mg/L', factor = 1) =>
  Object.entries(values).flatMap(([at, value]) => [
    ...on('kappa-flc', unit, { [at]: String((Number(value) + 10) * factor) }),
    ...on('lambda-flc', unit, { [at]: String(10 * factor) }),
  ])

// Wu 2018, Blood Adv 2:1470; the 100 mg/L (ours).
testRule('evolving-light-chain', {
  fires: [
    {
      why: 'on 169 %, 12 months to the day',
      given: smouldering(dflc({ [first]: '100', '2025-06-03': '269' })),
      shows: { ...once, cautions: ['one-sample'] },
    },
    { why: 'a step above', given: mgus(dflc({ [first]: '100', '2025-06-03': '269.1' })), shows: once },
    { why: 'in mg/dL', given: mgus(dflc({ [first]: '100', '2025-06-03': '270' }, 'mg/dL', 0.1)), shows: once },
    { why: 'a step above 100 mg/L', given: mgus(dflc({ [first]: '20', '2025-06-03': '120.1' })), shows: once },
    { why: 'twice', given: mgus(dflc({ [first]: '20', '2025-03-03': '130', '2025-06-03': '140' })), shows: { ...once, state: 'confirmed' } },
  ],
  quiet: [
    { why: 'a step below 169 %', given: smouldering(dflc({ [first]: '100', '2025-06-03': '268.9' })) },
    { why: 'a step below in mg/dL', given: mgus(dflc({ [first]: '100', '2025-06-03': '268' }, 'mg/dL', 0.1)) },
    { why: 'on 100 mg/L: it must be more', given: mgus(dflc({ [first]: '20', '2025-06-03': '120' })) },
    { why: '12 months and a day', given: mgus(dflc({ [first]: '20', '2025-06-04': '200' })) },
    { why: 'active disease', given: active(dflc({ [first]: '20', '2025-06-03': '200' })) },
  ],
})

test('the amount is the clinic’s', () => {
  const course = (evolvingLightChainMgL: number) =>
    traceCourse(history(mgus(dflc({ [first]: '20', '2025-06-03': '120' }))), day(TODAY), { ...DEFAULT_THRESHOLDS, evolvingLightChainMgL })
  const shows = (mgL: number) => courseFindings(course(mgL)).filter(({ rule }) => rule === 'evolving-light-chain')
  expect(shows(100)).toEqual([])
  expect(shows(99)).toMatchObject([{ facts: { amount: '99 mg/L' } }])
})

const hb = (values: readonly string[], unit = 'g/L') => every4Weeks('haemoglobin', unit, values)
const slow = { state: 'confirmed', window: 'next-visit', certainty: 'certain', cautions: ['inside-noise'] } as const
testRule('evolving-haemoglobin', {
  fires: [
    { why: 'two samples on 5 g/L below', given: smouldering(hb(['140', '135', '135'])), shows: { ...slow, since: '2024-07-29' } },
    { why: 'a step more', given: mgus(hb(['140', '134.9', '134.9'])), shows: slow },
    { why: 'in g/dL', given: mgus(hb(['14.0', '13.5', '13.5'], 'g/dL')), shows: slow },
    { why: 'below the highest of the 12 months, though not below the last', given: mgus(hb(['140', '130', '134', '135'])), shows: slow },
    {
      why: '12 months to the day before the last',
      given: mgus(on('haemoglobin', 'g/L', { [first]: '140', '2025-03-03': '135', '2025-06-03': '134' })),
      shows: slow,
    },
    {
      why: 'beside an evolving M-protein it is looked at with it',
      given: mgus([...hb(['140', '135', '135']), ...every4Weeks('serum-m-protein', 'g/L', ['12', '12', '18'])]),
      shows: { window: 'within-30-days' },
    },
    {
      why: 'below a limit, perhaps',
      given: mgus(hb(['140', '135', '<140'])),
      shows: { certainty: 'possible', cautions: ['censored', 'inside-noise'] },
    },
  ],
  quiet: [
    { why: 'a step less than 5 g/L', given: mgus(hb(['140', '135.1', '135'])) },
    { why: 'a step less in g/dL', given: mgus(hb(['14.0', '13.6', '13.5'], 'g/dL')) },
    { why: 'one sample', given: mgus(hb(['140', '130'])) },
    { why: '12 months and a day', given: mgus(on('haemoglobin', 'g/L', { [first]: '140', '2025-03-03': '135', '2025-06-04': '134' })) },
    { why: 'active disease', given: active(hb(['140', '135', '135'])) },
  ],
})

test('what evolves is told with its numbers and its criterion', () => {
  const told = (rule: RuleId, given: HistoryWords) => currentBy(rule, given).map(says)[0]
  expect(told('evolving-m-protein', smouldering(serum({ [first]: '32', '2024-12-03': '37' })))).toBe(
    'M-protein 37 g/L on 2024-12-03 is 5 g/L (15.6 %) above 32 g/L of 2024-06-03; criterion: rise of at least 5 g/L, and of 10 % within 6 months from 30 g/L or more or 25 % within 12 months. Second sample not yet there. About 1 in 10 that the true rise exceeds the criterion.',
  )
  expect(told('evolving-light-chain', mgus(dflc({ [first]: '100', '2025-06-03': '300' })))).toBe(
    'dFLC 300 mg/L on 2025-06-03 is 200 mg/L (200 %) above 100 mg/L of 2024-06-03; criterion: rise of at least 169 % and more than 100 mg/L within 12 months. Second sample not yet there. About 4 in 10 that the true rise exceeds the criterion.',
  )
  expect(told('evolving-haemoglobin', mgus(hb(['140', '135', '134'])))).toBe(
    'Haemoglobin 134 g/L on 2024-07-29 is 6 g/L below 140 g/L of 2024-06-03; criterion: two samples at least 5 g/L below one of the 12 months before. Confirmed by the sample of 2024-07-01. So small a fall is inside noise: it counts beside other signs.',
  )
  expect(currentBy('evolving-haemoglobin', mgus(hb(['140', '135', '134'])))[0]?.excess).toBeCloseTo(135 / 134, 12)
})
