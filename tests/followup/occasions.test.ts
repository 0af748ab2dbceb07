import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN, type FollowUpPlan, planOfValues, valuesOf } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { blood, immunoglobulins } from '../plan/visits.ts'
import { replayed, told } from './replay.ts'

const visits = (...days: string[]) => days.flatMap((on) => blood(on))

/** Off treatment since 2025-01-01: every 84 days, grace 21. A visit on the first day makes 2025-03-26 due, grace to 04-16. */
const UNTREATED: HistoryWords = { diagnosis: ['2025-01-01', 'active', { heavy: 'G', light: 'kappa' }] }
const FIRST = '2025-01-01'

interface Case {
  readonly words: HistoryWords
  readonly cutOff: string
  readonly plans?: readonly FollowUpPlan[]
  readonly gives: readonly string[]
}

const version = (number: string, from: string, values: Parameters<typeof planOfValues>[0]): FollowUpPlan =>
  planOfValues({ ...valuesOf(DEFAULT_PLAN), ...values }, { version: number, from: day(from) })
const often = (from: string) => version('2', from, { 'untreated.0.every': { days: 28 } })
const seldom = (from: string) => version('2', from, { 'untreated.0.every': { days: 168 } })

const CASES: Readonly<Record<string, Case>> = {
  'on the due day': { words: { ...UNTREATED, results: visits(FIRST, '2025-03-26') }, cutOff: '2025-04-01', gives: ['2025-03-26 2025-03-26 on-time'] },
  'on the last day of grace': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-04-16') },
    cutOff: '2025-05-01',
    gives: ['2025-03-26 2025-04-16 on-time'],
  },
  'one day after the grace: late by the days since the due day, not since the grace': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-04-17') },
    cutOff: '2025-05-01',
    gives: ['2025-03-26 2025-04-17 late 22'],
  },
  'as early as the grace is long: the occasion, on time': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-03-05') },
    cutOff: '2025-04-01',
    gives: ['2025-03-26 2025-03-05 on-time'],
  },
  'earlier than that: no occasion, and the due day moves': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-03-04') },
    cutOff: '2025-05-27',
    gives: ['2025-05-27 - pending'],
  },
  'not done, the grace ends on the day of the cut-off: it may still come': {
    words: { ...UNTREATED, results: visits(FIRST) },
    cutOff: '2025-04-16',
    gives: ['2025-03-26 - pending'],
  },
  'not done, the grace ended the day before': {
    words: { ...UNTREATED, results: visits(FIRST) },
    cutOff: '2025-04-17',
    gives: ['2025-03-26 - missed'],
  },
  'not done for years: one occasion, since the due day runs from the last sample': {
    words: { ...UNTREATED, results: visits(FIRST) },
    cutOff: '2028-01-01',
    gives: ['2025-03-26 - missed'],
  },
  'not due by the cut-off: none': { words: { ...UNTREATED, results: visits(FIRST) }, cutOff: '2025-03-25', gives: [] },
  'never done: from the day the row began': { words: UNTREATED, cutOff: '2025-05-01', gives: ['2025-03-26 - missed'] },
  'died within the grace': {
    words: { ...UNTREATED, results: visits(FIRST), left: ['2025-04-16', 'died'] },
    cutOff: '2025-08-01',
    gives: ['2025-03-26 - excluded died'],
  },
  'died after the grace had ended: it was missed before': {
    words: { ...UNTREATED, results: visits(FIRST), left: ['2025-04-17', 'died'] },
    cutOff: '2025-08-01',
    gives: ['2025-03-26 - missed'],
  },
  'left before the due day: none was due': {
    words: { ...UNTREATED, results: visits(FIRST), left: ['2025-03-20', 'transferred'] },
    cutOff: '2025-08-01',
    gives: [],
  },
  'left on the due day, as the patients file tells': {
    words: { ...UNTREATED, results: visits(FIRST), status: ['discharged', '2025-04-01'] },
    cutOff: '2025-08-01',
    gives: ['2025-03-26 - excluded discharged'],
  },
  'done on the day of leaving': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-04-02'), left: ['2025-04-02', 'transferred'] },
    cutOff: '2025-08-01',
    gives: ['2025-03-26 2025-04-02 on-time'],
  },
  'a sample without this test does not do it': {
    words: { ...UNTREATED, results: [...visits(FIRST), ...immunoglobulins('2025-03-26')] },
    cutOff: '2025-04-20',
    gives: ['2025-03-26 - missed'],
  },
  'a line begins before the due day: the due day of the line counts': {
    words: { ...UNTREATED, lines: [{ start: '2025-02-10' }], results: visits(FIRST, '2025-02-10', '2025-03-10') },
    cutOff: '2025-03-20',
    gives: ['2025-03-10 2025-03-10 on-time'],
  },
  'a line begins, and nobody was there for longer than its interval: due on its first day, not before': {
    words: { ...UNTREATED, lines: [{ start: '2025-02-10' }], results: visits(FIRST, '2025-02-15') },
    cutOff: '2025-03-01',
    gives: ['2025-02-10 2025-02-15 on-time'],
  },
  'a line ends within the grace: the later due day counts': {
    words: { ...UNTREATED, lines: [{ start: '2025-01-01', end: '2025-02-01' }], results: visits(FIRST, '2025-03-26') },
    cutOff: '2025-04-01',
    gives: ['2025-03-26 2025-03-26 on-time'],
  },
  'a line ends after the grace: missed, and the later due day is one more': {
    words: { ...UNTREATED, lines: [{ start: '2025-01-01', end: '2025-02-10' }], results: visits(FIRST, '2025-03-26') },
    cutOff: '2025-04-01',
    gives: ['2025-01-29 - missed', '2025-03-26 2025-03-26 on-time'],
  },
  'another phase moves the due day': {
    words: {
      diagnosis: ['2025-01-01', 'mgus', { heavy: 'G', light: 'kappa' }],
      phases: [['2025-05-01', 'active']],
      results: visits(FIRST, '2025-07-24'),
    },
    cutOff: '2025-08-01',
    gives: ['2025-05-01 2025-07-24 late 84'],
  },
  'a plan that asks sooner, before anything was due: its due day counts': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-02-05') },
    cutOff: '2025-02-10',
    plans: [often('2025-01-15')],
    gives: ['2025-01-29 2025-02-05 on-time'],
  },
  'a plan that asks for a day that is past when it begins: nobody could have met it': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-02-20') },
    cutOff: '2025-03-01',
    plans: [often('2025-02-15')],
    gives: ['2025-01-29 2025-02-20 excluded plan-not-in-force'],
  },
  'the same, and it was never done: excluded, and in the backlog': {
    words: { ...UNTREATED, results: visits(FIRST) },
    cutOff: '2025-06-01',
    plans: [often('2025-02-15')],
    gives: ['2025-01-29 - excluded plan-not-in-force'],
  },
  'a plan that asks later, once the day was reached and within its grace: the later day counts': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-06-18') },
    cutOff: '2025-07-01',
    plans: [seldom('2025-04-01')],
    gives: ['2025-06-18 2025-06-18 on-time'],
  },
  'a plan that asks later, once the grace had ended: it was missed by then': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-06-18') },
    cutOff: '2025-07-01',
    plans: [seldom('2025-04-17')],
    gives: ['2025-03-26 - missed', '2025-06-18 2025-06-18 on-time'],
  },
  'a day that was missed and is asked for again by a version after the next: missed, once': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-06-01') },
    cutOff: '2025-06-10',
    plans: [seldom('2025-05-01'), version('3', '2025-05-10', {})],
    gives: ['2025-03-26 - missed'],
  },
  'a plan that asks sooner, once the day was reached: the day that was reached stays': {
    words: { ...UNTREATED, results: visits(FIRST, '2025-04-10') },
    cutOff: '2025-04-12',
    plans: [often('2025-04-01')],
    gives: ['2025-03-26 2025-04-10 on-time'],
  },
  'an unconfirmed finding asks again 28 days after its sample': {
    words: {
      ...UNTREATED,
      results: [...blood(FIRST, '10'), ...blood('2025-02-01', '10'), ...blood('2025-04-20', '16'), ...blood('2025-05-18', '10')],
    },
    cutOff: '2025-05-20',
    gives: ['2025-04-26 2025-04-20 on-time', '2025-05-18 2025-05-18 on-time'],
  },
}

describe('occasions of a test', () => {
  test.each(Object.entries(CASES))('%s', (_, { words, cutOff, plans = [], gives }) => {
    expect(told(replayed(words, cutOff, plans))).toEqual(gives)
  })

  test('each says how the patient stood when it was reached, and by which version of the plan', () => {
    const words = { ...UNTREATED, clinician: 'Dr North', lines: [{ start: '2025-05-01' }], results: visits(FIRST, '2025-03-26', '2025-05-10') }
    const serum = replayed(words, '2025-05-20', [seldom('2025-04-01')]).filter(({ group }) => group === 'serum-m-protein')
    expect(serum.map(({ dueOn, care, phase, clinician, planVersion }) => [dueOn, care, phase, clinician, planVersion])).toEqual([
      ['2025-03-26', 'off-treatment', 'active', 'Dr North', '1'],
      ['2025-05-01', 'on-treatment', 'active', 'Dr North', '2'],
    ])
  })

  test('a value excluded as spurious did nothing, from the beginning', () => {
    const words: HistoryWords = {
      ...UNTREATED,
      results: visits(FIRST, '2025-03-26'),
      decisions: [{ id: 1, at: '2025-04-02T10:00:00.000Z', on: day('2025-04-02'), by: 'a', text: 'b', kind: 'exclusion', resultId: 9 }],
    }
    expect(words.results?.[8]?.slice(0, 2)).toEqual(['2025-03-26', 'serum-m-protein'])
    expect(told(replayed(words, '2025-04-20'))).toEqual(['2025-03-26 - missed'])
    expect(told(replayed(words, '2025-04-20'), 'chemistry')).toEqual(['2025-03-26 2025-03-26 on-time'])
  })
})
