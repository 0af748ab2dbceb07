import { describe, expect, test } from 'vitest'
import { DRIFT_FOLLOW_UP_RULES, GAP_RULES, RULE_IDS, RULES, says } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { blood } from '../plan/visits.ts'
import { gapsOn } from './gapsOn.ts'

const TODAY = '2024-12-01'

describe('held-results', () => {
  const on = (held: HistoryWords['held'], today = TODAY) => gapsOn('held-results', { held: held ?? [] }, today)

  test('any row that waits, within 7 days, since the first was received', () => {
    expect(on([['2024-11-20'], ['2024-11-18', '2024-11-17']])).toMatchObject([
      { window: 'within-7-days', since: '2024-11-18', facts: { count: '2' } },
    ])
    expect(on([['2024-11-18']]).map(says)).toEqual(['1 result waits in the held queue since 2024-11-18: nobody has seen it.'])
    expect(on([])).toEqual([])
  })

  test('as of a day before it was received, a row collected by then waits since its collection', () => {
    expect(on([['2024-12-10', '2024-11-28']])).toMatchObject([{ since: '2024-11-28' }])
    expect(on([['2024-12-10', '2024-11-28']], '2024-12-10')).toMatchObject([{ since: '2024-12-10' }])
    expect(on([['2024-12-10', '2024-12-02']])).toEqual([])
  })
})

describe('no-course', () => {
  test('results without a recorded phase, since the first of them', () => {
    expect(gapsOn('no-course', { results: blood('2024-10-01') }, TODAY)).toMatchObject([
      { window: 'within-30-days', state: 'met', since: '2024-10-01' },
    ])
  })

  test('a result without a value is one too', () => {
    expect(gapsOn('no-course', { results: [['2024-10-01', 'calcium', 'haemolysed']] }, TODAY)).toMatchObject([{ since: TODAY }])
  })

  test.each([
    ['no results', {}],
    ['results to come', { results: blood('2024-12-02') }],
    ['a phase', { results: blood('2024-10-01'), diagnosis: ['2024-10-01', 'mgus'] }],
    ['left', { results: blood('2024-10-01'), status: ['died', '2024-11-01'] }],
  ] as const)('quiet: %s', (_, words) => {
    expect(gapsOn('no-course', words, TODAY)).toEqual([])
  })
})

describe('no-baseline', () => {
  const line = (results: HistoryWords['results'], more: HistoryWords = {}): HistoryWords => ({
    diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: '2024-06-01' }],
    results: results ?? [],
    ...more,
  })
  const serum = (...days: readonly string[]) => days.map((on) => [on, 'serum-m-protein', '20'] as const)
  const found = (words: HistoryWords) => gapsOn('no-baseline', words, TODAY)

  test.each([
    ['no sample at all', []],
    ['61 days before the start', serum('2024-04-01')],
    ['8 days after it', serum('2024-06-09')],
    ['a trace is no number', [['2024-06-01', 'serum-m-protein', 'trace']] as const],
  ])('fires: %s', (_, results) => {
    expect(found(line(results))).toMatchObject([{ window: 'within-30-days', since: '2024-06-01', facts: { line: '1', start: '2024-06-01' } }])
  })

  test.each([
    ['60 days before the start', serum('2024-04-02')],
    ['7 days after it', serum('2024-06-08')],
    ['urine alone', [['2024-06-01', 'urine-m-protein', '300']] as const],
    [
      'light chains alone',
      [
        ['2024-06-01', 'kappa-flc', '300'],
        ['2024-06-01', 'lambda-flc', '3'],
      ] as const,
    ],
  ])('quiet: %s', (_, results) => {
    expect(found(line(results))).toEqual([])
  })

  test('a marker followed in the line without a baseline is named from its second sample on', () => {
    const urine = ['2024-06-01', 'urine-m-protein', '300'] as const
    expect(found(line([urine, ...serum('2024-07-01')]))).toEqual([])
    const [gap] = found(line([urine, ...serum('2024-07-01', '2024-08-01')]))
    expect(gap?.facts.markers).toBe('serum M-protein')
    expect(gap === undefined ? '' : says(gap)).toBe(
      'Treatment line 1, begun 2024-06-01, has no baseline of serum M-protein, at most 60 days before its start or 7 days after, although samples have come since: no rise of it can be seen.',
    )
    const chains = (on: string) =>
      [
        [on, 'kappa-flc', '300'],
        [on, 'lambda-flc', '3'],
      ] as const
    expect(found(line([urine, ...serum('2024-07-01', '2024-08-01'), ...chains('2024-07-01'), ...chains('2024-08-01')]))).toMatchObject([
      { facts: { markers: 'serum M-protein and free light chains' } },
    ])
  })

  test.each([
    ['the line has ended', { lines: [{ start: '2024-06-01', end: '2024-09-01' }] }],
    ['there is no line', { lines: [] }],
    ['the phase is not active', { diagnosis: ['2024-01-01', 'smouldering'] }],
  ] as const)('quiet: %s', (_, more) => {
    expect(found(line([], more))).toEqual([])
  })
})

describe('type-mismatch', () => {
  const fixed = (texts: Readonly<Record<string, string>>, more: HistoryWords = {}) =>
    gapsOn(
      'type-mismatch',
      {
        diagnosis: ['2024-01-01', 'mgus', { heavy: 'G', light: 'kappa' }],
        results: Object.entries(texts).map(([on, text]) => [on, 'serum-immunofixation', text] as const),
        ...more,
      },
      TODAY,
    )

  test('another light chain than the involved one, next visit, since the first of the run', () => {
    const [found] = fixed({ '2024-02-01': 'IgG kappa', '2024-03-01': 'IgG lambda', '2024-04-01': 'IgG lambda' })
    expect(found).toMatchObject({ window: 'next-visit', state: 'met', since: '2024-03-01', endedOn: null, cautions: [] })
    expect(found?.evidence).toMatchObject([{ analyte: 'serum-immunofixation', value: 'IgG lambda', collectedOn: '2024-04-01' }])
    expect(found === undefined ? '' : says(found)).toBe(
      'Serum immunofixation of 2024-04-01 shows lambda, but by the recorded diagnosis the involved light chain is kappa.',
    )
  })

  test.each([
    ['the same', 'IgG kappa'],
    ['another heavy chain alone', 'IgA kappa'],
    ['both chains', 'IgG kappa and IgA lambda'],
    ['negative', 'negative'],
    ['not read', 'IgG lambda no longer seen'],
    ['cannot exclude', 'cannot exclude'],
    ['no light chain named', 'IgG'],
  ])('quiet: %s', (_, text) => {
    expect(fixed({ '2024-03-01': text })).toEqual([])
  })

  test('only the last one read is current, and where the involved chain is not known there is nothing to disagree with', () => {
    expect(fixed({ '2024-03-01': 'IgG lambda', '2024-04-01': 'IgG kappa' })).toEqual([])
    expect(fixed({ '2024-03-01': 'IgG lambda', '2024-04-01': 'cannot exclude' })).toHaveLength(1)
    expect(fixed({ '2024-03-01': 'IgG lambda' }, { diagnosis: ['2024-01-01', 'mgus'] })).toEqual([])
  })

  test('an IgG kappa band on a therapeutic antibody carries the caution', () => {
    const more: HistoryWords = {
      diagnosis: ['2024-01-01', 'active', { heavy: 'A', light: 'lambda' }],
      lines: [{ start: '2024-02-01', regimen: ['daratumumab'] }],
    }
    expect(fixed({ '2024-03-01': 'IgG kappa' }, more)).toMatchObject([{ cautions: ['antibody-drug'] }])
  })
})

test('every rule of the list is built, once', () => {
  expect([...RULES, ...DRIFT_FOLLOW_UP_RULES, ...GAP_RULES].map(({ id }) => id)).toEqual([...RULE_IDS])
})

test('every gap says what it asks and where it comes from', () => {
  for (const { asks, source } of GAP_RULES) {
    expect(asks).toMatch(/\?$/)
    expect(source).toMatch(/ours/)
  }
})
