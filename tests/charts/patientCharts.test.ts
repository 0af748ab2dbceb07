import { expect, test } from 'vitest'
import { type ChartPlan, patientCharts } from '../../lib/charts/index.ts'
import { series } from '../builders/history.ts'
import { assessed } from './assessed.ts'
import { RETURNING, RETURNING_TODAY } from './invented.ts'

const charts = patientCharts(assessed(RETURNING, RETURNING_TODAY))

function chart(id: ChartPlan['id'], of: readonly ChartPlan[] = charts): ChartPlan {
  const found = of.find((plan) => plan.id === id)
  if (found === undefined) throw new Error(`no chart ${id}`)
  return found
}

test('all charts share one time axis, from the first day known to the day asked about', () => {
  expect(charts.map(({ id }) => id)).toEqual(['serum-m-protein', 'light-chains', 'haemoglobin', 'creatinine', 'calcium'])
  expect(new Set(charts.map(({ from, to }) => `${from} ${to}`))).toEqual(new Set([`2022-01-10 ${RETURNING_TODAY}`]))
})

test('the lowest mark is drawn from the day it was first set, the criterion above it', () => {
  const { marks } = chart('serum-m-protein')
  expect(marks.filter(({ kind }) => kind !== 'limit')).toEqual([
    { kind: 'lowest', from: '2023-12-01', to: RETURNING_TODAY, y: 10, label: 'lowest 10 g/L' },
    { kind: 'criterion', from: '2023-12-01', to: RETURNING_TODAY, y: 15, label: 'progression at 15 g/L' },
  ])
})

test('a lowest value that only one sample reached stands beside the one two samples reached', () => {
  const { results = [] } = RETURNING
  const once = assessed({ ...RETURNING, results: results.filter(([on]) => on !== '2024-05-01') }, RETURNING_TODAY)
  expect(chart('serum-m-protein', patientCharts(once)).marks.map(({ label }) => label)).toEqual([
    'lowest 10 g/L',
    'lowest confirmed 10.5 g/L',
    'progression at 15 g/L',
  ])
})

test('corrected, censored and other-laboratory values are told apart, and kept in one unit', () => {
  const points = chart('serum-m-protein').series[0]?.points ?? []
  expect(points.filter(({ corrected }) => corrected).map(({ on }) => on)).toEqual(['2025-07-01'])
  expect(points.filter(({ laboratory }) => laboratory === 'South laboratory').map(({ label }) => label)).toEqual(['12.2', '13.1'])
  const lambda = chart('light-chains').series[1]?.points.at(-1)
  expect(lambda).toMatchObject({ y: 2, label: '<2', censored: 'below' })
})

test('a value above a limit is drawn on it, marked upwards', () => {
  const plan = patientCharts(assessed({ results: [['2025-01-01', 'kappa-flc', '>5000', 'mg/L']] }, '2025-02-01'))
  expect(chart('light-chains', plan).series[0]?.points).toMatchObject([{ y: 5000, label: '>5000', censored: 'above' }])
})

test('words without a number are in the table and the sentence, never in the picture', () => {
  const plan = chart('serum-m-protein', patientCharts(assessed({ results: [['2025-01-01', 'serum-m-protein', 'trace']] }, '2025-02-01')))
  expect(plan.series[0]?.points).toEqual([])
  expect(plan.table.rows).toEqual([['2025-01-01', 'trace']])
  expect(plan.sentence).toBe('Serum M-protein on 2025-01-01: trace, which has no place in the picture.')
})

test('the domain holds every point and every mark', () => {
  for (const {
    yDomain: [low, high],
    series: drawn,
    marks,
  } of charts) {
    for (const { y } of [...drawn.flatMap(({ points }) => points), ...marks]) {
      expect(y).toBeGreaterThanOrEqual(low)
      expect(y).toBeLessThanOrEqual(high)
    }
  }
})

test('no result is said, not drawn', () => {
  const calcium = chart('calcium')
  expect(calcium.sentence).toBe('No calcium result is recorded.')
  expect([calcium.marks, calcium.table.rows, calcium.yTicks]).toEqual([[], [], []])
})

test('the sentence compares the latest value with the lowest, exactly', () => {
  expect(chart('serum-m-protein').sentence).toBe(
    'Serum M-protein is 15 g/L on 2025-09-20, 5 g/L (50.0 %) above the lowest, 10 g/L on 2023-12-01. Progression at 15 g/L.',
  )
})

test('the table names the unit a laboratory printed and what was corrected', () => {
  const { columns, rows } = chart('serum-m-protein').table
  expect(columns).toEqual(['Day', 'Serum M-protein, g/L', 'Laboratory', 'Note'])
  expect(rows.slice(1, 3)).toEqual([
    ['2025-07-01', '14.9', 'North laboratory', 'corrected; laboratory changed'],
    ['2025-03-04', '13.1', 'South laboratory', 'printed 1.31 g/dL'],
  ])
})

test('the light-chain criterion stands where kappa would meet it with lambda as last measured', () => {
  const criterion = chart('light-chains').marks.find(({ kind }) => kind === 'criterion')
  // Lowest dFLC 22 - 8 = 14; more than 100 above it; lambda last "<2", drawn at 2.
  expect(criterion).toMatchObject({ y: 116, label: 'light-chain escape: dFLC above 114 mg/L' })
})

test('in a precursor phase the marks are those of myeloma-defining events', () => {
  const words = {
    diagnosis: ['2024-01-01', 'smouldering', { heavy: 'A', light: 'lambda' }] as const,
    results: [
      ...series('haemoglobin', 'g/L', { '2024-01-01': '135' }, { referenceLow: '130' }),
      ...series('calcium', 'mmol/L', { '2024-01-01': '2.4' }, { referenceHigh: '2.45' }),
    ],
  }
  const plan = patientCharts(assessed(words, '2024-03-01'))
  const criterion = (id: ChartPlan['id']) => chart(id, plan).marks.find(({ kind }) => kind === 'criterion')?.label
  expect(criterion('haemoglobin')).toBe('myeloma-defining below 110 g/L')
  expect(criterion('calcium')).toBe('myeloma-defining above 2.7 mmol/L')
})

test('urine stands only where it was measured', () => {
  const plan = patientCharts(assessed({ results: [['2025-01-01', 'urine-m-protein', '300']] }, '2025-02-01'))
  expect(chart('urine-m-protein', plan).sentence).toBe('Urine M-protein is 300 mg/24 h on 2025-01-01.')
})
