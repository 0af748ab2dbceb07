import { expect, test } from 'vitest'
import { patientCharts } from '../../lib/charts/index.ts'
import { type HistoryWords, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const words = (heavy: 'A' | 'G', serum: string): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy, light: 'kappa' }],
  lines: [{ start: '2024-01-05' }],
  results: [...series('iga', 'g/L', { '2024-01-01': '22', '2024-03-01': '8', '2024-05-01': '9' }), ['2024-01-01', 'serum-m-protein', serum]],
})
const chart = (heavy: 'A' | 'G', serum: string) =>
  patientCharts(assessed(words(heavy, serum), '2024-06-01')).find(({ id }) => id === 'immunoglobulin') ?? null

test('an IgA protein has its quantitative IgA as a chart of its own', () => {
  const plan = chart('A', '4')
  expect(plan?.title).toBe('Quantitative IgA')
  expect(plan?.series.map(({ points }) => points.map(({ label }) => label))).toEqual([['22', '8', '9']])
  expect(plan?.marks.map(({ label }) => label)).toEqual(['lowest 8 g/L', 'lowest confirmed 9 g/L', 'progression at 13 g/L'])
  expect(plan?.sentence).toBe(
    'Quantitative IgA is 9 g/L on 2024-05-01, 1 g/L (12.5 %) above the lowest, 8 g/L on 2024-03-01. Lowest confirmed 9 g/L; progression at 13 g/L. It includes normal IgA and is never compared with electrophoresis.',
  )
})

test('no progression is marked where electrophoresis measures the protein', () => {
  expect(chart('A', '20')?.marks.map(({ kind }) => kind)).toEqual(['lowest', 'lowest-confirmed'])
})

test('an IgG protein in the gamma region has none', () => {
  expect(chart('G', '20')).toBeNull()
})
