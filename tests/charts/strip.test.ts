import { expect, test } from 'vitest'
import { strip } from '../../lib/charts/index.ts'
import { series } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const ACTIVE = { diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }], lines: [{ start: '2024-01-05' }] } as const

function ofValues(values: Readonly<Record<string, string>>) {
  return strip(assessed({ ...ACTIVE, results: series('serum-m-protein', 'g/L', { '2024-01-01': '40', ...values }) }, '2025-01-01'))
}

test('active and quiet: the main marker, from the lowest value to where progression begins', () => {
  expect(ofValues({ '2024-03-01': '10', '2024-05-01': '12' })).toEqual({
    marker: 'serum M-protein',
    unit: 'g/L',
    fromLabel: 'lowest',
    from: '10',
    current: '12',
    toLabel: 'criterion at',
    to: '15',
    position: 0.4,
  })
})

test.each([
  ['on the lowest value', { '2024-03-01': '10', '2024-05-01': '10' }, 0],
  ['below it', { '2024-03-01': '10', '2024-05-01': '8' }, -0.4],
  ['one step below the criterion', { '2024-03-01': '10', '2024-05-01': '14.9' }, 0.98],
  ['on the criterion', { '2024-03-01': '10', '2024-05-01': '15' }, 1],
  ['beyond it', { '2024-03-01': '10', '2024-05-01': '20' }, 2],
])('position %s', (_, values, position) => {
  expect(ofValues(values)?.position).toBe(position)
})

test('nothing to compare with: no strip', () => {
  expect(ofValues({})).toBeNull()
  expect(strip(assessed({ results: series('serum-m-protein', 'g/L', { '2024-01-01': '40' }) }, '2025-01-01'))).toBeNull()
})

test('smouldering and quiet: no strip', () => {
  const words = {
    diagnosis: ['2024-01-01', 'smouldering'],
    results: series('serum-m-protein', 'g/L', { '2024-01-01': '20', '2024-06-01': '21' }),
  } as const
  expect(strip(assessed(words, '2025-01-01'))).toBeNull()
})

test('a confirmed finding is held against the value it rests on', () => {
  const found = ofValues({ '2024-03-01': '10', '2024-04-01': '10.4', '2024-05-01': '15.4', '2024-06-01': '15.4' })
  expect(found).toMatchObject({ from: '10.4', to: '15.4', position: 1 })
})

test('a rise of quantitative IgA is laid out in its own series', () => {
  const words = {
    diagnosis: ['2024-01-01', 'active', { heavy: 'A', light: 'kappa' }],
    lines: [{ start: '2024-01-05' }],
    results: [
      ...series('iga', 'g/L', { '2024-01-01': '20', '2024-03-01': '10', '2024-05-01': '15.5' }),
      ...series('serum-m-protein', 'g/L', { '2024-01-01': '6', '2024-05-01': '7' }),
    ],
  } as const
  expect(strip(assessed(words, '2025-01-01'))).toMatchObject({
    marker: 'quantitative IgA',
    unit: 'g/L',
    from: '10',
    current: '15.5',
    to: '15',
    position: 1.1,
  })
})
