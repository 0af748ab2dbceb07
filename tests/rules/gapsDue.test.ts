import { describe, expect, test } from 'vitest'
import { says } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { blood } from '../plan/visits.ts'
import { gapsOn } from './gapsOn.ts'

/** Every 28 days, grace 7: due 2024-01-29, grace to 2024-02-05, 14 days late 2024-02-12. */
const onTreatment: HistoryWords = { diagnosis: ['2024-01-01', 'active'], lines: [{ start: '2024-01-01' }], results: blood('2024-01-01') }
/** Every 84 days, grace 21: due 2024-03-25, grace to 2024-04-15, a whole interval late 2024-06-17. */
const offTreatment: HistoryWords = { diagnosis: ['2024-01-01', 'active'], results: blood('2024-01-01') }
/** Half a year once, grace 30: due 2024-07-01, grace to 2024-07-31, a whole interval late 2025-01-01. */
const mgus: HistoryWords = { diagnosis: ['2024-01-01', 'mgus'], results: blood('2024-01-01') }

function serum(rule: 'overdue' | 'due-in-grace', words: HistoryWords, today: string) {
  return gapsOn(rule, words, today).find(({ facts }) => facts.group === 'serum-m-protein') ?? null
}

describe('due-in-grace', () => {
  test.each([
    ['on the due day', onTreatment, '2024-01-29', null],
    ['the day after', onTreatment, '2024-01-30', 'next-visit'],
    ['on the last day of grace', onTreatment, '2024-02-05', 'next-visit'],
    ['past grace', onTreatment, '2024-02-06', null],
    ['84 days: on the due day', offTreatment, '2024-03-25', null],
    ['84 days: the day after', offTreatment, '2024-03-26', 'next-visit'],
    ['84 days: last day of grace', offTreatment, '2024-04-15', 'next-visit'],
    ['months: last day of grace', mgus, '2024-07-31', 'next-visit'],
    ['months: past grace', mgus, '2024-08-01', null],
  ] as const)('%s', (_, words, today, window) => {
    expect(serum('due-in-grace', words, today)?.window ?? null).toBe(window)
  })
})

describe('overdue', () => {
  test.each([
    ['on the last day of grace', onTreatment, '2024-02-05', null],
    ['the day after', onTreatment, '2024-02-06', 'within-30-days'],
    ['14 days late', onTreatment, '2024-02-12', 'within-30-days'],
    ['15 days late', onTreatment, '2024-02-13', 'within-7-days'],
    ['a whole short interval late', onTreatment, '2024-02-26', 'within-7-days'],
    ['84 days: last day of grace', offTreatment, '2024-04-15', null],
    ['84 days: the day after', offTreatment, '2024-04-16', 'within-30-days'],
    ['84 days: 83 days late', offTreatment, '2024-06-16', 'within-30-days'],
    ['84 days: a whole interval late', offTreatment, '2024-06-17', 'within-7-days'],
    ['months: past grace', mgus, '2024-08-01', 'within-30-days'],
    ['months: a day less than another half year late', mgus, '2024-12-31', 'within-30-days'],
    ['months: half a year late', mgus, '2025-01-01', 'within-7-days'],
  ] as const)('%s', (_, words, today, window) => {
    expect(serum('overdue', words, today)?.window ?? null).toBe(window)
  })

  test('one finding a test group, each counted from its own due day', () => {
    const serumOnly: HistoryWords = { ...onTreatment, results: [...blood('2024-01-01'), ['2024-02-01', 'serum-m-protein', '20']] }
    const found = gapsOn('overdue', serumOnly, '2024-02-13')
    expect(found.map(({ facts, since }) => [facts.group, since])).toEqual([
      ['free-light-chains', '2024-01-29'],
      ['blood-count', '2024-01-29'],
      ['chemistry', '2024-01-29'],
    ])
  })

  test('met, certain, with what was last done as evidence', () => {
    expect(serum('overdue', onTreatment, '2024-02-13')).toMatchObject({
      state: 'met',
      certainty: 'certain',
      organDamage: false,
      excess: 1,
      facts: { group: 'serum-m-protein', dueOn: '2024-01-29', graceEndsOn: '2024-02-05', lastDoneOn: '2024-01-01' },
      evidence: [{ role: 'previous', analyte: 'serum-m-protein', value: '20', unit: 'g/L', collectedOn: '2024-01-01', resultIds: [1] }],
    })
  })

  test('a value in words is evidence in words', () => {
    const trace: HistoryWords = { ...onTreatment, results: [['2024-01-01', 'serum-m-protein', 'trace']] }
    expect(serum('overdue', trace, '2024-02-13')?.evidence).toEqual([
      { role: 'previous', analyte: 'serum-m-protein', value: 'trace', unit: '', comparator: null, collectedOn: '2024-01-01', resultIds: [1] },
    ])
  })

  test('what is said names days and stays the same from day to day', () => {
    const on = (today: string) => gapsOn('overdue', onTreatment, today)
    expect(on('2024-06-16')).toEqual(on('2024-04-16'))
    expect(on('2024-06-16').map(says)).toEqual([
      'Serum M-protein: was due on 2024-01-29 and its grace ended on 2024-02-05; last done 2024-01-01.',
      'Free light chains: was due on 2024-01-29 and its grace ended on 2024-02-05; last done 2024-01-01.',
      'Blood count: was due on 2024-01-29 and its grace ended on 2024-02-05; last done 2024-01-01.',
      'Chemistry (creatinine and calcium): was due on 2024-01-29 and its grace ended on 2024-02-05; last done 2024-01-01.',
      'Immunoglobulins: was due on 2024-03-25 and its grace ended on 2024-04-15; never done so far.',
    ])
  })
})
