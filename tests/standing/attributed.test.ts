import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import type { RuleId } from '../../lib/rules/index.ts'
import { assess, isAttributable } from '../../lib/standing/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import { attribution, withdrawal } from '../builders/decision.ts'
import { type HistoryWords, history, printedUnits, type ResultRow } from '../builders/history.ts'

const on = (words: HistoryWords, today: string, plan = DEFAULT_PLAN) => assess(history(words), plan, day(today))
const smouldering = (results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords => ({
  diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
  results,
  ...more,
})
const active = (results: readonly ResultRow[]): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-01' }],
  results,
})

/** The finding of a rule on a day, with these decisions; null where it is not current. */
function told(words: HistoryWords, today: string, rule: RuleId, decisions: readonly Decision[] = []) {
  const answer = on({ ...words, decisions }, today)
  return answer.findings.find((finding) => finding.rule === rule) ?? null
}

function current(words: HistoryWords, today: string, rule: RuleId) {
  const finding = told(words, today, rule)
  if (finding === null) throw new Error(`${rule} was expected on ${today}`)
  return finding
}

/** Whether a cause recorded on a day still holds on a later one, when more results have come. */
function holds(before: HistoryWords, recordedOn: string, rule: RuleId, after: HistoryWords, today: string): boolean {
  const decision = attribution(1, recordedOn, current(before, recordedOn, rule))
  const later = told(after, today, rule, [decision])
  if (later === null) throw new Error(`${rule} was expected on ${today}`)
  expect(later.window === 'next-visit').toBe(later.cautions.includes('attributed-elsewhere'))
  return later.cautions.includes('attributed-elsewhere')
}

test('an attributed finding stays, at the next visit, and says so; risk, response and due tests are as they were', () => {
  const words = smouldering([['2024-03-01', 'haemoglobin', '95']])
  const before = on(words, '2024-03-02')
  const finding = current(words, '2024-03-02', 'mde-anaemia')
  const after = on({ ...words, decisions: [attribution(1, '2024-03-02', finding)] }, '2024-03-02')
  expect(finding.window).toBe('within-7-days')
  expect(after.findings.find(({ rule }) => rule === 'mde-anaemia')).toEqual({
    ...finding,
    window: 'next-visit',
    cautions: [...finding.cautions, 'attributed-elsewhere'],
  })
  expect([after.risk, after.response, after.due, after.history]).toEqual([before.risk, before.response, before.due, before.history])
  expect(after.window).toBe('next-visit')
})

describe('worse by a quarter', () => {
  const at = (analyte: ResultRow[1], value: string, later?: string, unit = printedUnits(analyte)[0] ?? ''): readonly ResultRow[] => [
    ['2024-03-01', analyte, value, unit],
    ...(later === undefined ? [] : [['2024-04-01', analyte, later, unit] as const]),
  ]

  test.each<[string, RuleId, ResultRow[1], string, string, boolean]>([
    ['haemoglobin one step above', 'mde-anaemia', 'haemoglobin', '96', '72.1', true],
    ['haemoglobin on', 'mde-anaemia', 'haemoglobin', '96', '72', false],
    ['haemoglobin one step below', 'mde-anaemia', 'haemoglobin', '96', '71.9', false],
    ['haemoglobin better', 'mde-anaemia', 'haemoglobin', '96', '99', true],
    ['creatinine one step below', 'mde-renal', 'creatinine', '200', '249.9', true],
    ['creatinine on', 'mde-renal', 'creatinine', '200', '250', false],
    ['creatinine better', 'mde-renal', 'creatinine', '200', '180', true],
    ['calcium one step below', 'mde-calcium', 'calcium', '2.8', '3.49', true],
    ['calcium on', 'mde-calcium', 'calcium', '2.8', '3.5', false],
    ['a limit counts with the number it names, as before', 'mde-anaemia', 'haemoglobin', '<96', '<96', true],
    ['a limit a quarter lower is worse', 'mde-anaemia', 'haemoglobin', '<96', '<72', false],
  ])('%s', (_, rule, analyte, value, later, expected) => {
    expect(holds(smouldering(at(analyte, value)), '2024-03-02', rule, smouldering(at(analyte, value, later)), '2024-04-02')).toBe(expected)
  })

  test('what the file prints decides nothing: g/dL and g/L alike, exactly', () => {
    const [before, after] = [smouldering(at('haemoglobin', '9.6', undefined, 'g/dL')), smouldering(at('haemoglobin', '9.6', '7.2', 'g/dL'))]
    expect(holds(before, '2024-03-02', 'mde-anaemia', after, '2024-04-02')).toBe(false)
  })

  test('of a low filtration the creatinine decides', () => {
    const [before, after] = [smouldering(at('creatinine', '170')), smouldering(at('creatinine', '170', '212.4'))]
    expect(holds(before, '2024-03-02', 'mde-renal', after, '2024-04-02')).toBe(true)
    expect(holds(before, '2024-03-02', 'mde-renal', smouldering(at('creatinine', '170', '212.5')), '2024-04-02')).toBe(false)
  })

  test('calcium adjusted for albumin counts beside the total one', () => {
    const first: readonly ResultRow[] = [
      ['2024-03-01', 'calcium', '2.6'],
      ['2024-03-01', 'albumin', '30'],
    ]
    const followed = (albumin: string) => smouldering([...first, ['2024-04-01', 'calcium', '2.9'], ['2024-04-01', 'albumin', albumin]])
    // 2.8 adjusted; 2.9 with albumin 10 is 3.5, with 11 is 3.48. Total calcium rose by a ninth.
    expect(holds(smouldering(first), '2024-03-02', 'mde-calcium', followed('11'), '2024-04-02')).toBe(true)
    expect(holds(smouldering(first), '2024-03-02', 'mde-calcium', followed('10'), '2024-04-02')).toBe(false)
  })

  test('a lower albumin alone is not worse calcium', () => {
    const first: readonly ResultRow[] = [
      ['2024-03-01', 'calcium', '2.9'],
      ['2024-03-01', 'albumin', '20'],
    ]
    const after = smouldering([...first, ['2024-04-01', 'calcium', '2.9'], ['2024-04-01', 'albumin', '40']])
    expect(holds(smouldering(first), '2024-03-02', 'mde-calcium', after, '2024-04-02')).toBe(true)
  })

  test.each<[string, number, boolean]>([
    ['four lesions after four', 4, true],
    ['five after four', 5, false],
  ])('bone: %s', (_, later, expected) => {
    const scan = (lytic: number, at: string) => [at, 'ct', { lytic }] as const
    const before = smouldering([], { imaging: [scan(4, '2024-03-01')] })
    const after = smouldering([], { imaging: [scan(4, '2024-03-01'), scan(later, '2024-04-01')] })
    expect(holds(before, '2024-03-02', 'mde-bone', after, '2024-04-02')).toBe(expected)
  })

  test('a new lesion after the one that was explained is another one', () => {
    const words = (...days: readonly string[]): HistoryWords => ({
      ...active([]),
      imaging: days.map((at) => [at, 'ct', { newLesions: 1 }] as const),
    })
    expect(holds(words('2024-03-01'), '2024-03-02', 'pd-lesion', words('2024-03-01'), '2024-04-02')).toBe(true)
    expect(holds(words('2024-03-01'), '2024-03-02', 'pd-lesion', words('2024-03-01', '2024-04-01'), '2024-04-02')).toBe(false)
  })

  test('once worse it is over, even when the next value is better again', () => {
    const values = (...later: readonly string[]) =>
      smouldering(['200', ...later].map((value, nth) => [addDays(day('2024-03-01'), nth * 7), 'creatinine', value] as const))
    expect(holds(values(), '2024-03-02', 'mde-renal', values('249', '210'), '2024-03-20')).toBe(true)
    expect(holds(values(), '2024-03-02', 'mde-renal', values('250', '210'), '2024-03-20')).toBe(false)
  })

  test('a correction of the same sample to a worse value ends it', () => {
    const [before, after] = [smouldering(at('creatinine', '200')), smouldering(at('creatinine', '250'))]
    expect(holds(before, '2024-03-02', 'mde-renal', after, '2024-03-03')).toBe(false)
  })

  test('the clinic may ask for another per cent and other days', () => {
    const plan = { ...DEFAULT_PLAN, thresholds: { ...DEFAULT_PLAN.thresholds, attributionWorsePercent: 10, attributionDays: 30 } }
    const decision = attribution(1, '2024-03-02', current(smouldering(at('creatinine', '200')), '2024-03-02', 'mde-renal'))
    const attributions = (later: string, today: string) =>
      on({ ...smouldering(at('creatinine', '200', later)), decisions: [decision] }, today, plan).attributions.size
    expect([attributions('219', '2024-03-31'), attributions('219', '2024-04-01'), attributions('190', '2024-03-31')]).toEqual([1, 0, 1])
  })
})

describe('when it ends', () => {
  const words = smouldering([['2024-03-01', 'haemoglobin', '95']])
  const decision = attribution(1, '2024-03-02', current(words, '2024-03-02', 'mde-anaemia'))
  const isHeld = (today: string, more: readonly Decision[] = [], of = words) =>
    told(of, today, 'mde-anaemia', [decision, ...more])?.cautions.includes('attributed-elsewhere')

  test('on the 89th day it holds, on the 90th the finding is back', () => {
    expect([isHeld(addDays(day('2024-03-02'), 89)), isHeld(addDays(day('2024-03-02'), 90))]).toEqual([true, false])
  })

  test('the answer holds until the day before', () => {
    const { holdsUntil } = on({ ...words, decisions: [decision], left: ['2024-03-02', 'transferred'] }, '2024-03-03')
    expect(holdsUntil).toBe(addDays(day('2024-03-02'), 89))
  })

  test('withdrawn it counts no more, and before that day it did', () => {
    const taken = [withdrawal(2, '2024-03-10', 1)]
    expect([isHeld('2024-03-09', taken), isHeld('2024-03-10', taken)]).toEqual([true, false])
  })

  test('a finding that ended and began anew is another one', () => {
    const anew = smouldering([
      ['2024-03-01', 'haemoglobin', '95'],
      ['2024-03-15', 'haemoglobin', '125'],
      ['2024-03-29', 'haemoglobin', '95'],
    ])
    expect(isHeld('2024-03-30', [], anew)).toBe(false)
  })

  test('a run that turns out to have begun earlier is the same one', () => {
    const earlier = smouldering([
      ['2024-02-01', 'haemoglobin', '97'],
      ['2024-03-01', 'haemoglobin', '95'],
    ])
    expect(isHeld('2024-03-30', [], earlier)).toBe(true)
  })

  test('before the day it was recorded it does not exist', () => {
    expect([isHeld('2024-03-01'), isHeld('2024-03-02')]).toEqual([false, true])
  })
})

test('danger is never attributed, whatever is recorded for its rule', () => {
  const words = smouldering([['2024-03-01', 'haemoglobin', '75']])
  const danger = current(words, '2024-03-02', 'danger-haemoglobin')
  const decisions = [attribution(1, '2024-03-02', danger), attribution(2, '2024-03-02', current(words, '2024-03-02', 'mde-anaemia'))]
  expect(told(words, '2024-03-02', 'danger-haemoglobin', decisions)).toEqual(danger)
  expect(told(words, '2024-03-02', 'mde-anaemia', decisions)?.window).toBe('next-visit')
  expect(on({ ...words, decisions }, '2024-03-02').window).toBe('same-day')
})

test('only current organ damage that is no danger can be attributed', () => {
  const { findings, history: past } = on(
    active([
      ['2024-01-01', 'serum-m-protein', '10'],
      ['2024-01-01', 'haemoglobin', '130'],
      ['2024-02-01', 'serum-m-protein', '16'],
      ['2024-02-01', 'haemoglobin', '75'],
      ['2024-01-20', 'calcium', '2.9'],
      ['2024-02-01', 'calcium', '2.4'],
    ]),
    '2024-02-02',
  )
  const attributable = [...findings, ...past].filter(isAttributable).map(({ rule }) => rule)
  expect(attributable).toEqual(['relapse-haemoglobin'])
  expect([...findings, ...past].map(({ rule }) => rule)).toEqual(expect.arrayContaining(['danger-haemoglobin', 'pd-serum', 'relapse-calcium']))
})
