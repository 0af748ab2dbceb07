import { describe, expect, test } from 'vitest'
import type { DueTest, TestGroup } from '../../lib/plan/index.ts'
import { says } from '../../lib/rules/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { driftOn } from './driftOn.ts'
import { active, mgus, on, smouldering } from './patients.ts'

const FIRST = day('2024-06-03')
const TODAY = addDays(FIRST, 301)

/** A value that doubles every 300 days from `from` on, sampled every 100 days, to six decimals. */
const doubling = (analyte: ResultRow[1], unit: string, from: number, samples = 4): ResultRow[] =>
  [0, 100, 200, 300].slice(4 - samples).flatMap((days) => on(analyte, unit, { [addDays(FIRST, days)]: (from * 2 ** (days / 300)).toFixed(6) }))

/** One test group due so many days after the first sample. */
const dueAfter = (group: TestGroup, days: number): readonly DueTest[] => [
  {
    group,
    lastDoneOn: addDays(FIRST, 300),
    dueOn: addDays(FIRST, days),
    graceEndsOn: addDays(FIRST, days + 30),
    daysLate: 0,
    intervalDays: 100,
    because: '',
  },
]
const crossing = (given: HistoryWords, group: TestGroup, days: number, today: string = TODAY, thresholds = {}) =>
  driftOn('projected-crossing', given, today, { due: dueAfter(group, days), thresholds })

const SERUM = 'serum-m-protein'
/** Meets 30 g/L 300 x log2(30 / 14) = 329.9 days after the first sample: on day 330. */
const towards30 = mgus(doubling(SERUM, 'g/L', 14))

describe('projected-crossing', () => {
  test('MGUS: the line meets 30 g/L before the next due sample', () => {
    const [found, ...more] = crossing(towards30, SERUM, 331)
    expect(more).toEqual([])
    expect(found).toMatchObject({
      state: 'unconfirmed',
      certainty: 'certain',
      window: 'within-30-days',
      cautions: [],
      since: addDays(FIRST, 300),
      endedOn: null,
    })
    expect(found?.evidence.map(({ role }) => role)).toEqual(['reference', 'reference', 'reference', 'current'])
    expect(found?.excess).toBeCloseTo(28 / 30, 9)
    expect(found === undefined ? '' : says(found)).toBe(
      'M-protein 28 g/L on 2025-03-30: the line through 4 samples since 2024-06-03 doubles in 300 days and meets 30 g/L on 2025-04-29, before the next sample due on 2025-04-30. A projection, not a measurement.',
    )
  })

  test('not when it meets it on the due day', () => expect(crossing(towards30, SERUM, 330)).toEqual([]))
  test('not when nothing is due', () => expect(driftOn('projected-crossing', towards30, TODAY, { due: [] })).toEqual([]))

  test('once the due day has passed without a sample, from the day on which the line has met the level', () => {
    const at = (days: number) => crossing(towards30, SERUM, 310, addDays(FIRST, days)).map(says)
    expect(at(329)).toEqual([])
    expect(at(330)).toEqual([expect.stringContaining('meets 30 g/L on 2025-04-29, and the sample due on 2025-04-09 has not come.')])
    expect(at(500)).toEqual(at(330))
  })

  test('the same in g/dL', () => {
    expect(crossing(mgus(doubling(SERUM, 'g/dL', 1.4)), SERUM, 331)).toMatchObject([{ facts: { crossesOn: '2025-04-29' } }])
  })

  test.each<[string, HistoryWords]>([
    ['two samples', mgus(doubling(SERUM, 'g/L', 14, 2))],
    ['it falls', mgus(on(SERUM, 'g/L', { '2024-06-03': '29.9', '2024-10-03': '29', '2025-02-03': '28' }))],
    ['it does not surely rise', mgus(on(SERUM, 'g/L', { '2024-06-03': '20', '2024-10-03': '29', '2025-01-03': '19', '2025-03-30': '28' }))],
    ['a limit is no exact value', mgus(on(SERUM, 'g/L', { '2024-06-03': '<20', '2024-10-03': '24', '2025-03-30': '28' }))],
    ['not detected has no logarithm', mgus(on(SERUM, 'g/L', { '2024-06-03': 'not detected', '2024-10-03': '24', '2025-03-30': '28' }))],
    ['a sample is older than 12 months', mgus(on(SERUM, 'g/L', { '2024-03-29': '14', '2024-10-03': '20', '2025-03-30': '28' }))],
    ['the latest sample meets the criterion itself', mgus([...doubling(SERUM, 'g/L', 14), [TODAY, SERUM, '30']])],
    ['smouldering: no level of serum M-protein', smouldering(doubling(SERUM, 'g/L', 14))],
  ])('quiet: %s', (_, given) => expect(crossing(given, SERUM, 1000)).toEqual([]))

  test('12 months to the day count', () => {
    expect(crossing(mgus(on(SERUM, 'g/L', { '2024-03-30': '14', '2024-10-03': '20', '2025-03-30': '28' })), SERUM, 1000)).toHaveLength(1)
  })

  test('samples, months and confidence are the clinic’s', () => {
    const two = mgus(on(SERUM, 'g/L', { '2024-03-29': '14', '2024-10-03': '20', '2025-03-30': '28' }))
    expect(crossing(two, SERUM, 1000, TODAY, { projectionMonths: 13 })).toHaveLength(1)
    expect(crossing(towards30, SERUM, 331, TODAY, { projectionSamples: 5 })).toEqual([])
    const rough = mgus(on(SERUM, 'g/L', { '2024-06-03': '18', '2024-10-03': '25', '2025-01-03': '22', '2025-03-30': '28' }))
    expect(crossing(rough, SERUM, 1000, TODAY, { projectionPercent: 90 })).toHaveLength(1)
    expect(crossing(rough, SERUM, 1000, TODAY, { projectionPercent: 99 })).toEqual([])
  })

  test('MGUS: urine meets 500 mg/24 h 300 x log2(500 / 240) = 317.7 days after the first sample', () => {
    expect(crossing(mgus(doubling('urine-m-protein', 'mg/(24.h)', 240)), 'urine-24h', 400)).toMatchObject([
      { facts: { marker: 'urine-m-protein', level: '500 mg/24 h', crossesOn: addDays(FIRST, 318) } },
    ])
  })

  describe('light chains: ratio 100 with an involved chain of 100 mg/L', () => {
    const lambda = (value: string) => [0, 100, 200, 300].flatMap((days) => on('lambda-flc', 'mg/L', { [addDays(FIRST, days)]: value }))
    const chains = (kappa: number, uninvolved: string) => smouldering([...doubling('kappa-flc', 'mg/L', kappa), ...lambda(uninvolved)])
    const group = 'free-light-chains'

    test('the ratio comes last', () => {
      expect(crossing(chains(90, '2'), group, 400)).toMatchObject([{ facts: { marker: 'involved-ratio', level: '100', value: '90' } }])
    })
    test('the involved chain comes last', () => {
      expect(crossing(chains(45, '0.9'), group, 400)).toMatchObject([{ facts: { marker: 'involved-flc', level: '100 mg/L' } }])
    })
    test('quiet while one of them does not come', () => {
      expect(crossing(chains(90, '9'), group, 400)).toEqual([])
    })
  })

  describe('active disease: progression above the lowest value of the line', () => {
    test('serum: 10 + 5 g/L', () => {
      expect(crossing(active(doubling(SERUM, 'g/L', 7)), SERUM, 400)).toEqual([])
      const rising = active([...on(SERUM, 'g/L', { '2024-06-03': '10', '2024-09-11': '11', '2024-12-20': '12.4', '2025-03-30': '14' })])
      expect(crossing(rising, SERUM, 400)).toMatchObject([{ facts: { level: '15 g/L' } }])
    })
    test('urine: 300 + 200 mg/24 h', () => {
      const rising = active(
        on('urine-m-protein', 'mg/(24.h)', { '2024-06-03': '300', '2024-09-11': '350', '2024-12-20': '410', '2025-03-30': '480' }),
      )
      expect(crossing(rising, 'urine-24h', 400)).toMatchObject([{ facts: { level: '500 mg/24 h' } }])
    })
    test('light chains only where neither serum nor urine measures the disease', () => {
      const flc = ['2024-06-03', '2024-09-11', '2024-12-20', '2025-03-30'].flatMap((at, index) => [
        ...on('kappa-flc', 'mg/L', { [at]: ['90', '110', '140', '175'][index] ?? '' }),
        ...on('lambda-flc', 'mg/L', { [at]: '10' }),
      ])
      expect(crossing(active(flc), 'free-light-chains', 400)).toMatchObject([{ facts: { marker: 'dflc', level: '180 mg/L' } }])
      expect(crossing(active([...flc, ['2024-06-03', SERUM, '10']]), 'free-light-chains', 400)).toEqual([])
    })
  })
})
