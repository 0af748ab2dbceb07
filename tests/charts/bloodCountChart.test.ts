import { expect, test } from 'vitest'
import { patientCharts } from '../../lib/charts/index.ts'
import { type HistoryWords, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const COUNTS = [
  ...series('platelets', '10*9/L', { '2024-01-01': '210', '2024-03-01': '88' }, { referenceLow: '150' }),
  ...series('neutrophils', '10*9/L', { '2024-01-01': '3.1', '2024-03-01': '1.2' }),
]
const TREATED: HistoryWords = { diagnosis: ['2024-01-01', 'active'], lines: [{ start: '2024-01-05' }], results: COUNTS }
const shown = (words: HistoryWords) => patientCharts(assessed(words, '2024-03-02')).map(({ id }) => id)
const chart = (wanted: string) => patientCharts(assessed(TREATED, '2024-03-02')).find(({ id }) => id === wanted)

test('neutrophils and platelets stand after haemoglobin once treatment was given', () => {
  expect(shown(TREATED)).toEqual(['serum-m-protein', 'light-chains', 'haemoglobin', 'neutrophils', 'platelets', 'creatinine', 'calcium'])
  expect(shown({ ...TREATED, results: [] })).not.toContain('platelets')
})

test('without treatment they stand only where a danger of them is shown', () => {
  const untreated: HistoryWords = { diagnosis: ['2024-01-01', 'mgus'], results: COUNTS }
  expect(shown(untreated)).toEqual(['serum-m-protein', 'light-chains', 'haemoglobin', 'creatinine', 'calcium'])
  expect(shown({ ...untreated, results: [['2024-03-01', 'platelets', '24', '10*9/L']] })).toContain('platelets')
  expect(shown({ ...untreated, results: [['2024-03-01', 'platelets', '25', '10*9/L']] })).not.toContain('platelets')
})

test('their marks are the laboratory’s lower limit and danger, on the axis with every value', () => {
  const plan = chart('platelets')
  expect(plan?.marks.map(({ label }) => label)).toEqual(["laboratory's lower limit 150 x 10^9/L", 'danger below 25 x 10^9/L'])
  expect(plan?.yDomain[0]).toBeLessThanOrEqual(25)
  expect(plan?.sentence).toBe(
    'The count of platelets is 88 x 10^9/L on 2024-03-01, 122 x 10^9/L (58.1 %) below the sample before, 210 x 10^9/L on 2024-01-01.',
  )
  expect(chart('neutrophils')?.marks.map(({ label }) => label)).toEqual(['danger below 0.5 x 10^9/L'])
})

test('the shared axis begins at the first result of any panel, a count or an immunoglobulin included', () => {
  const from = (words: HistoryWords) => [...new Set(patientCharts(assessed(words, '2024-06-01')).map((plan) => plan.from))]
  const first: HistoryWords = { ...TREATED, results: [...COUNTS, ['2023-11-20', 'platelets', '300', '10*9/L']] }
  expect(from(first)).toEqual(['2023-11-20'])
  const iga: HistoryWords = {
    diagnosis: ['2024-01-01', 'active', { heavy: 'A', light: 'kappa' }],
    results: [...series('iga', 'g/L', { '2023-10-01': '22', '2024-03-01': '8' }), ['2024-01-01', 'serum-m-protein', '4']],
  }
  expect(from(iga)).toEqual(['2023-10-01'])
})
