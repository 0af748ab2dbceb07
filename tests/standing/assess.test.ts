import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { blood, immunoglobulins, urine } from '../plan/visits.ts'

const on = (words: HistoryWords, today: string) => assess(history(words), DEFAULT_PLAN, day(today))
const active = (more: HistoryWords): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-01' }],
  ...more,
})
const visits = (values: Readonly<Record<string, string>>) =>
  Object.entries(values).flatMap(([at, serum]) => [...blood(at, serum), ...immunoglobulins(at)])
const told = (words: HistoryWords, today: string) => on(words, today).findings.map(({ rule, state, window }) => [rule, state, window])

describe('worked case 1: lowest confirmed 10 g/L, and the plan around it', () => {
  const upTo = (...values: readonly string[]) => {
    const days = ['2024-01-01', '2024-01-29', '2024-02-26', '2024-03-25']
    return active({ results: values.flatMap((serum, at) => visits({ [days[at] ?? '']: serum })), lines: [{ start: '2024-01-01' }] })
  }

  test('14.9: no progression, and a word at the next visit that it is more than noise', () =>
    expect(told(upTo('10', '10', '14.9'), '2024-02-27')).toEqual([['beyond-noise', 'unconfirmed', 'next-visit']]))
  test('15.0: unconfirmed', () => expect(told(upTo('10', '10', '15.0'), '2024-02-27')).toEqual([['pd-serum', 'unconfirmed', 'within-30-days']]))
  test('15.0 twice: confirmed', () =>
    expect(told(upTo('10', '10', '15.0', '15.0'), '2024-03-26')).toEqual([['pd-serum', 'confirmed', 'within-7-days']]))

  test('the second sample is due 28 days after the first, and its absence is told the day after', () => {
    const once = upTo('10', '10', '15.0')
    expect(on(once, '2024-03-25').due.find(({ group }) => group === 'serum-m-protein')).toMatchObject({ dueOn: '2024-03-25' })
    expect(told(once, '2024-03-25')).toEqual([['pd-serum', 'unconfirmed', 'within-30-days']])
    expect(told(once, '2024-03-26').filter(([rule]) => rule === 'confirmation-overdue')).toEqual([['confirmation-overdue', 'met', 'within-7-days']])
  })
})

test('off treatment an unconfirmed finding brings its own test forward, and no other', () => {
  const ended = active({
    results: [...visits({ '2024-01-01': '10', '2024-03-25': '16' }), ...urine('2024-01-01', '100'), ...urine('2024-03-25', '320')],
    lines: [{ start: '2024-01-01', end: '2024-02-01' }],
  })
  const { due } = on(ended, '2024-03-26')
  expect(due.map(({ group, dueOn, because }) => [group, dueOn, because.split(':')[0]])).toEqual([
    ['serum-m-protein', '2024-04-22', 'active, unconfirmed finding'],
    ['free-light-chains', '2024-06-17', 'active, maintenance or off treatment'],
    ['blood-count', '2024-06-17', 'active, maintenance or off treatment'],
    ['chemistry', '2024-06-17', 'active, maintenance or off treatment'],
    ['urine-24h', '2024-04-22', 'active, unconfirmed finding'],
  ])
})

test.each([
  ['relapse-calcium', [['2024-01-29', 'calcium', '2.9']], 'chemistry'],
  ['relapse-creatinine', [['2024-01-29', 'creatinine', '300']], 'chemistry'],
  ['relapse-haemoglobin', [['2024-01-29', 'haemoglobin', '110']], 'blood-count'],
  [
    'light-chain-escape',
    [
      ['2024-01-29', 'kappa-flc', '400'],
      ['2024-01-29', 'lambda-flc', '5'],
    ],
    'free-light-chains',
  ],
] as const)('%s asks for its test 28 days after its sample', (rule, results, group) => {
  const ended = active({ results: [...visits({ '2024-01-01': '20' }), ...results], lines: [{ start: '2024-01-01', end: '2024-01-20' }] })
  const answer = on(ended, '2024-01-30')
  expect(answer.findings).toContainEqual(expect.objectContaining({ rule, state: 'unconfirmed' }))
  expect(answer.due.find((due) => due.group === group)?.dueOn).toBe('2024-02-26')
})

test('findings stand most urgent first and the window is that of the first', () => {
  const words = active({
    results: [...visits({ '2024-01-01': '10', '2024-01-29': '15' }), ['2024-01-30', 'neutrophils', '0.4']],
    held: [['2024-01-30']],
  })
  expect(told(words, '2024-01-31')).toEqual([
    ['danger-neutrophils', 'met', 'same-day'],
    ['held-results', 'met', 'within-7-days'],
    ['pd-serum', 'unconfirmed', 'within-30-days'],
  ])
  expect(on(words, '2024-01-31').window).toBe('same-day')
})

test('what the latest sample no longer shows is history, latest ended first', () => {
  const words = active({ results: [...visits({ '2024-01-01': '10', '2024-01-29': '15', '2024-02-26': '10' }), ['2024-02-01', 'calcium', '3.1']] })
  const answer = on(words, '2024-02-27')
  expect(answer.findings).toEqual([])
  expect(answer.window).toBe('on-schedule')
  const ended = answer.history.map(({ endedOn }) => endedOn)
  expect(answer.history.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['pd-serum', 'danger-calcium', 'relapse-calcium']))
  expect(ended).toEqual(ended.toSorted().toReversed())
})

describe('a patient who left', () => {
  const words = active({ results: [...visits({ '2024-01-01': '10' }), ['2024-01-29', 'neutrophils', '0.4']], held: [['2024-01-30']] })
  const today = '2024-06-01'

  test.each([
    ['transferred', { left: ['2024-05-31', 'transferred'] }],
    ['died', { status: ['died', '2024-06-01'] }],
  ] as const)('%s: nothing is due and no gap is told; what the results show stays', (_, more) => {
    const answer = on({ ...words, ...more }, today)
    expect(answer.due).toEqual([])
    expect(answer.findings.map(({ rule }) => rule)).toEqual(['danger-neutrophils'])
  })

  test('no line is drawn ahead, since no sample is due; a rise beyond noise stays', () => {
    const rising = active({
      results: ['10', '11.1', '12.5', '14'].flatMap((serum, at) =>
        visits({ [['2024-01-01', '2024-02-01', '2024-03-01', '2024-04-01'][at] ?? '']: serum }),
      ),
    })
    expect(on(rising, '2024-04-02').findings.map(({ rule }) => rule)).toContain('projected-crossing')
    expect(on({ ...rising, left: ['2024-04-02', 'transferred'] }, '2024-04-02').findings.map(({ rule }) => rule)).toEqual(['beyond-noise'])
  })

  test('before that day they are followed', () => {
    const answer = on({ ...words, left: ['2024-06-02', 'transferred'] }, today)
    expect(answer.due.length).toBeGreaterThan(0)
    expect(answer.findings.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['overdue', 'held-results']))
  })
})

test('smouldering by its own risk: two factors bring the next visit forward', () => {
  const smouldering = (marrow: string): HistoryWords => ({
    diagnosis: ['2020-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
    results: blood('2024-01-01', '25'),
    imaging: [['2024-01-01', 'mri']],
    marrow: [['2020-01-01', marrow]],
  })
  expect(on(smouldering('25'), '2024-01-02').due[0]?.dueOn).toBe('2024-04-01')
  expect(on(smouldering('15'), '2024-01-02').due[0]?.dueOn).toBe('2025-01-01')
})

test('the day is an argument: the same history on the same day gives the same answer, and later results are not yet known', () => {
  const words = active({ results: visits({ '2024-01-01': '10', '2024-01-29': '16' }) })
  const { course: _, ...answer } = on(words, '2024-01-28')
  const { course: __, ...known } = on(active({ results: visits({ '2024-01-01': '10' }) }), '2024-01-28')
  expect({ ...answer, holdsUntil: null }).toEqual({ ...known, holdsUntil: null })
})
