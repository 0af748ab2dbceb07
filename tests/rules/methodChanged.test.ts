import { describe, expect, test } from 'vitest'
import type { RuleId } from '../../lib/rules/index.ts'
import type { HistoryWords, ResultMore, ResultRow } from '../builders/history.ts'
import { active, every4Weeks } from './patients.ts'
import { currentBy } from './ruleTable.ts'

type Analyte = ResultRow[1]

/** The values of one analyte every four weeks; sample `other` comes from elsewhere, in the way `more` says. */
function withOne(analyte: Analyte, unit: string, values: readonly string[], other: number, more: ResultMore): ResultRow[] {
  const kept = every4Weeks(analyte, unit, values, { method: 'first method' })
  return kept.map((row, at): ResultRow => (at === other ? [row[0], row[1], row[2], unit, { method: 'first method', ...more }] : row))
}

const SOUTH: ResultMore = { laboratory: 'South laboratory' }
const NEW_METHOD: ResultMore = { method: 'second method' }
const lambdas = (values: readonly string[], other: number, more: ResultMore) =>
  withOne(
    'lambda-flc',
    'mg/L',
    values.map(() => '10'),
    other,
    more,
  )
const chains = (values: readonly string[], other: number, more: ResultMore) => [
  ...withOne('kappa-flc', 'mg/L', values, other, more),
  ...lambdas(values, other, more),
]
const measurable = every4Weeks('serum-m-protein', 'g/L', ['30', '10', '10', '10'])

/** Rules that compare samples, each with values that fire and the samples the comparison rests on. */
const COMPARING: readonly [RuleId, samples: readonly number[], (other: number, more: ResultMore) => HistoryWords, today?: string][] = [
  ['pd-serum', [1, 2, 3], (at, more) => active(withOne('serum-m-protein', 'g/L', ['20', '10', '16', '16'], at, more))],
  ['pd-urine', [1, 2, 3], (at, more) => active(withOne('urine-m-protein', 'mg/(24.h)', ['300', '310', '600', '600'], at, more))],
  ['pd-light-chain', [1, 2, 3], (at, more) => active(chains(['90', '95', '400', '400'], at, more))],
  ['significant-relapse', [0, 1, 2], (at, more) => active(withOne('serum-m-protein', 'g/L', ['4', '9', '9'], at, more))],
  ['light-chain-escape', [1, 2, 3], (at, more) => active([...measurable, ...chains(['90', '95', '400', '400'], at, more)])],
  ['relapse-haemoglobin', [0, 1, 2], (at, more) => active(withOne('haemoglobin', 'g/L', ['130', '109', '109'], at, more))],
  ['relapse-creatinine', [0, 1, 2], (at, more) => active(withOne('creatinine', 'umol/L', ['80', '260', '260'], at, more))],
  ['danger-kidney', [0, 1], (at, more) => active(withOne('creatinine', 'umol/L', ['80', '130'], at, more)), '2024-07-02'],
  ['danger-light-chain-kidney', [0, 1], (at, more) => active(chains(['400', '600'], at, more)), '2024-07-02'],
]

describe.each(COMPARING)('%s', (rule, samples, given, today) => {
  test.each(
    samples.flatMap(
      (at) =>
        [
          [at, 'laboratory', SOUTH],
          [at, 'method', NEW_METHOD],
        ] as const,
    ),
  )('carries the caution where sample %i comes by another %s', (at, _, more) => {
    const found = currentBy(rule, given(at, more), today)
    expect(found).not.toEqual([])
    for (const one of found) expect(one.cautions).toContain('method-changed')
  })

  test('and does not where all come from one', () => {
    const found = currentBy(rule, given(-1, {}), today)
    expect(found).not.toEqual([])
    for (const one of found) expect(one.cautions).not.toContain('method-changed')
  })

  test('nor where a sample does not name them', () => {
    for (const one of currentBy(rule, given(samples[0] ?? 0, { laboratory: null, method: null }), today)) {
      expect(one.cautions).not.toContain('method-changed')
    }
  })
})

test.each([
  ['pd-light-chain', active(chains(['90', '95', '400', '400'], 3, SOUTH))],
  ['light-chain-escape', active([...measurable, ...chains(['90', '95', '400', '400'], 3, SOUTH)])],
  ['significant-relapse', active(chains(['90', '400', '400'], 2, SOUTH))],
] as const)('%s: a comparison of free light chains that crosses a change is kept at within 30 days', (rule, given) => {
  const found = currentBy(rule, given).filter(({ evidence }) => evidence.some(({ analyte }) => analyte === 'dflc' || analyte === 'involved-flc'))
  expect(found).toMatchObject([{ state: 'confirmed', window: 'within-30-days' }])
})

test('danger-light-chain-kidney keeps its window: the value alone is at the level', () => {
  expect(currentBy('danger-light-chain-kidney', active(chains(['400', '600'], 1, SOUTH)), '2024-07-02')).toMatchObject([{ window: 'within-7-days' }])
})
