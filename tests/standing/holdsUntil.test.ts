import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { urgencyKey, whySentence } from '../../lib/review/index.ts'
import { says } from '../../lib/rules/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { addDays, type Day, day, daysBetween } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { blood, immunoglobulins } from '../plan/visits.ts'
import { decided } from './decided.ts'
import { asked } from './inventedHistory.ts'

const on = (words: HistoryWords, today: string) => assess(history(words), DEFAULT_PLAN, day(today))

/** What is kept of an answer: everything but the day it was given, the course it was traced from, and days late, which are counted when shown. */
function kept(words: HistoryWords, today: string) {
  const answer = on(words, today)
  const { findings, open, history: past, risk, response, window } = answer
  const [answered, attributed] = [[...answer.answers.values()], [...answer.attributions.values()]]
  const due = answer.due.map(({ daysLate, ...rest }) => rest)
  return {
    findings,
    open,
    answered,
    attributed,
    past,
    risk,
    response,
    window,
    due,
    says: findings.map(says),
    why: whySentence(answer),
    key: urgencyKey(answer),
  }
}

const DAYS_LOOKED_AHEAD = 40

test.each([
  ['nobody decided anything about', asked, 200],
  ['people decided about', decided, 150],
])('an answer stays the same up to and including the day it holds until: of a history %s', (_, some, numRuns) => {
  fc.assert(
    fc.property(some, ({ words, today }) => {
      const { holdsUntil } = on(words, today)
      const answer = kept(words, today)
      const last = holdsUntil === null ? DAYS_LOOKED_AHEAD : daysBetween(day(today), holdsUntil)
      expect(last).toBeGreaterThanOrEqual(0)
      const ahead = [...Array(Math.min(last, DAYS_LOOKED_AHEAD)).keys()].map((days) => days + 1)
      for (const days of new Set([...ahead, last])) expect(kept(words, addDays(day(today), days))).toEqual(answer)
    }),
    { numRuns },
  )
})

test('it ends no sooner than it must: most answers differ on the very next day', () => {
  let ended = 0
  let changed = 0
  fc.assert(
    fc.property(asked, ({ words, today }) => {
      const { holdsUntil } = on(words, today)
      if (holdsUntil === null) return
      ended += 1
      if (JSON.stringify(kept(words, addDays(holdsUntil, 1))) !== JSON.stringify(kept(words, today))) changed += 1
    }),
    { numRuns: 300, seed: 7 },
  )
  expect(ended).toBeGreaterThan(100)
  expect(changed / ended).toBeGreaterThan(0.8)
})

test('an answer that holds for good is the same ten years later', () => {
  fc.assert(
    fc.property(asked, ({ words, today }) => {
      fc.pre(on(words, today).holdsUntil === null)
      expect(kept(words, addDays(day(today), 3653))).toEqual(kept(words, today))
    }),
    { numRuns: 40 },
  )
})

test('in which order decisions are told changes nothing', () => {
  const shuffled = decided.chain(({ words, today }) => {
    const decisions = words.decisions ?? []
    return fc.record({
      words: fc.constant(words),
      otherwise: fc.shuffledSubarray([...decisions], { minLength: decisions.length }),
      today: fc.constant(today),
    })
  })
  fc.assert(
    fc.property(shuffled, ({ words, otherwise, today }) => {
      expect(kept({ ...words, decisions: otherwise }, today)).toEqual(kept(words, today))
    }),
    { numRuns: 100 },
  )
})

test('a decision changes nothing before its day', () => {
  fc.assert(
    fc.property(decided, ({ words, today }) => {
      const early = (words.decisions ?? []).filter(({ on }) => on <= today)
      expect(kept({ ...words, decisions: early }, today)).toEqual(kept(words, today))
    }),
    { numRuns: 100 },
  )
})

describe('the day', () => {
  const visit = (at: string) => [...blood(at), ...immunoglobulins(at)]
  const treated: HistoryWords = {
    diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: '2024-01-01' }],
    results: visit('2024-01-01'),
  }
  const mgus: HistoryWords = { diagnosis: ['2024-01-01', 'mgus', { heavy: 'G', light: 'kappa' }], results: visit('2024-01-01') }
  const serum = (values: Readonly<Record<string, string>>) => Object.entries(values).map(([at, value]) => [at, 'serum-m-protein', value] as const)
  // Doubles every 300 days: 30 g/L is met 300 x log2(30 / 12) = 396.6 days after the first sample. The next one was due on 2024-11-01.
  const rising: HistoryWords = { ...mgus, results: serum({ '2024-01-01': '12', '2024-03-01': '13.785', '2024-05-01': '15.871' }) }
  // Left, so that nothing but the danger itself depends on the day.
  const gone = (results: HistoryWords['results']): HistoryWords => ({ results: results ?? [], left: ['2024-01-01', 'discharged'] })

  test.each<[string, HistoryWords, string, Day | null]>([
    ['a quiet patient holds for half a year', mgus, '2024-01-02', day('2024-07-01')],
    ['on treatment until the next cycle', treated, '2024-01-02', day('2024-01-29')],
    ['on the due day itself', treated, '2024-01-29', day('2024-01-29')],
    ['then until the grace ends', treated, '2024-01-30', day('2024-02-05')],
    ['then until 14 days late', treated, '2024-02-06', day('2024-02-12')],
    ['then until the next group is due', treated, '2024-02-13', day('2024-03-25')],
    ['long overdue for good', treated, '2025-06-01', null],
    ['a danger until it is stale', gone([['2024-01-01', 'neutrophils', '0.4']]), '2024-01-02', day('2024-01-31')],
    ['stale for good', gone([['2024-01-01', 'neutrophils', '0.4']]), '2024-02-01', null],
    [
      'a kidney injury until 14 days',
      gone([
        ['2023-12-20', 'creatinine', '80'],
        ['2024-01-01', 'creatinine', '130'],
      ]),
      '2024-01-02',
      day('2024-01-15'),
    ],
    [
      'an unconfirmed finding until its second sample is late',
      { ...mgus, results: [...visit('2024-01-01'), ['2024-01-10', 'calcium', '2.9']] },
      '2024-01-11',
      day('2024-02-07'),
    ],
    [
      'a result dated ahead until the day before',
      { ...mgus, results: [...visit('2024-01-01'), ...visit('2024-03-01')] },
      '2024-01-02',
      day('2024-02-29'),
    ],
    ['leaving dated ahead until the day before', { ...mgus, left: ['2024-03-01', 'transferred'] }, '2024-01-02', day('2024-02-29')],
    ['gone for good', { ...mgus, left: ['2024-03-01', 'transferred'] }, '2024-03-01', null],
    [
      'gone for good, a second sample being expected by nobody',
      { ...mgus, results: [['2024-01-10', 'calcium', '2.9']], left: ['2024-01-10', 'transferred'] },
      '2024-01-11',
      null,
    ],
    [
      'a step up in risk until it is 90 days old',
      { ...mgus, results: serum({ '2024-01-01': '10', '2024-01-20': '26' }), left: ['2024-02-01', 'discharged'] },
      '2024-02-02',
      day('2024-04-19'),
    ],
    ['no sample since one was due, until the day before the line meets its level', rising, '2025-01-10', day('2025-01-31')],
    ['from then until it is late by a whole interval', rising, '2025-02-01', day('2025-04-30')],
    ['nothing recorded', {}, '2024-01-02', null],
    ['results without a value have no day to count from', { results: [['2024-01-01', 'calcium', 'QNS']] }, '2024-01-02', day('2024-01-02')],
  ])('%s', (_, words, today, last) => {
    expect(on(words, today).holdsUntil).toBe(last)
  })
})
