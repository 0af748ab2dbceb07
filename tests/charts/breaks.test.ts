import { expect, test } from 'vitest'
import { patientCharts } from '../../lib/charts/index.ts'
import type { HistoryWords, ResultMore, ResultRow } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const at = (on: string, value: string, more: ResultMore): ResultRow => [on, 'serum-m-protein', value, 'g/L', more]
const serumChart = (results: readonly ResultRow[], more: HistoryWords = {}) => {
  const [plan] = patientCharts(assessed({ results, ...more }, '2025-01-01'))
  if (plan === undefined) throw new Error('a chart was expected')
  return plan
}
const breaks = (...mores: readonly ResultMore[]) =>
  serumChart(mores.map((more, index) => at(`2024-0${index + 1}-01`, '20', more))).series[0]?.breaks.map(({ on, words }) => `${on} ${words}`)

test.each<[string, readonly ResultMore[], readonly string[]]>([
  ['one laboratory, one method', [{ method: 'a' }, { method: 'a' }], []],
  ['another laboratory', [{ laboratory: 'N' }, { laboratory: 'S' }], ['2024-02-01 laboratory changed']],
  ['and back', [{ laboratory: 'N' }, { laboratory: 'S' }, { laboratory: 'N' }], ['2024-02-01 laboratory changed', '2024-03-01 laboratory changed']],
  ['another method', [{ method: 'a' }, { method: 'b' }], ['2024-02-01 method changed']],
  [
    'both',
    [
      { laboratory: 'N', method: 'a' },
      { laboratory: 'S', method: 'b' },
    ],
    ['2024-02-01 laboratory and method changed'],
  ],
  ['a method that is not named breaks nothing', [{ method: 'a' }, { method: null }, { method: 'a' }], []],
  ['but hides no change', [{ method: 'a' }, { method: null }, { method: 'b' }], ['2024-03-01 method changed']],
])('%s', (_, mores, expected) => {
  expect(breaks(...mores)).toEqual(expected)
})

test('the table notes the change on its day, with both methods', () => {
  const { table } = serumChart([at('2024-01-01', '20', { method: 'gel' }), at('2024-02-01', '21', { method: 'capillary' })])
  expect(table.columns).toEqual(['Day', 'Serum M-protein, g/L', 'Note'])
  expect(table.rows[0]).toEqual(['2024-02-01', '21', 'method changed (method: gel, then capillary)'])
})

test('the sentence says that the values it compares may not be comparable', () => {
  const words: HistoryWords = { diagnosis: ['2024-01-01', 'active'], lines: [{ start: '2024-01-02' }] }
  const changed = serumChart([at('2024-01-01', '20', {}), at('2024-02-01', '21', { laboratory: 'South' })], words)
  expect(changed.sentence).toContain(
    'the lowest, 20 g/L on 2024-01-01. The laboratory or method changed between them, so they may not be comparable.',
  )
  expect(serumChart([at('2024-01-01', '20', {}), at('2024-02-01', '21', {})], words).sentence).not.toContain('comparable')
})

test('kappa and lambda break each by itself', () => {
  const words: HistoryWords = {
    results: [
      ['2024-01-01', 'kappa-flc', '20'],
      ['2024-02-01', 'kappa-flc', '20', 'mg/L', { laboratory: 'South' }],
      ['2024-02-01', 'lambda-flc', '10', 'mg/L', { laboratory: 'South' }],
    ],
  }
  const chart = patientCharts(assessed(words, '2025-01-01')).find(({ id }) => id === 'light-chains')
  expect(chart?.series.map((one) => one.breaks.length)).toEqual([1, 0])
})
