import { describe, expect, test } from 'vitest'
import { type HistoryWords, type ResultRow, series } from '../builders/history.ts'
import { courseOf, shownMark, shownWindow } from './shown.ts'

type Heavy = 'G' | 'A' | 'M' | 'D' | 'E' | 'none'
const words = (heavy: Heavy, results: readonly ResultRow[], more: HistoryWords = {}): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy, light: 'kappa' }],
  lines: [{ start: '2024-01-05' }],
  results,
  ...more,
})
const followed = (heavy: Heavy, results: readonly ResultRow[]) => courseOf(words(heavy, results)).immunoglobulin
const IGA = series('iga', 'g/L', { '2024-01-01': '22', '2024-02-01': '9', '2024-03-01': '8', '2024-04-01': '11' })
const BETA = { method: 'capillary electrophoresis, beta-2 region' }

describe('IMWG 2016; Dispenzieri, Leukemia 2009;23:215: where electrophoresis measures the protein badly', () => {
  test('IgA is followed like a marker, by itself', () => {
    const { markers, immunoglobulin } = courseOf(words('A', [...IGA, ['2024-02-01', 'serum-m-protein', '4']]))
    expect(immunoglobulin).toMatchObject({ name: 'iga', unit: 'g/L', because: 'class' })
    expect(immunoglobulin?.baseline?.on).toBe('2024-01-01')
    expect(immunoglobulin?.lowest.map(shownMark)).toEqual([null, '22 of 2024-01-01', '9 of 2024-02-01', '8 of 2024-03-01', '8 of 2024-03-01'])
    expect(immunoglobulin?.lowestConfirmed.map(shownMark)).toEqual([
      null,
      '22 of 2024-01-01',
      '22 of 2024-01-01',
      '9 of 2024-02-01',
      '9 of 2024-02-01',
    ])
    expect(markers['serum-m-protein'].samples.map(({ on }) => on)).toEqual(['2024-02-01'])
    expect(Object.keys(markers)).not.toContain('iga')
  })

  test('IgD too, in the unit it is kept in', () => {
    expect(followed('D', series('igd', 'mg/dL', { '2024-01-01': '900' }))).toMatchObject({ name: 'igd', unit: 'mg/L', because: 'class' })
  })

  test.each<[string, Heavy, ResultRow[]]>([
    [
      'IgG whose electrophoresis names the beta region',
      'G',
      [
        ['2024-01-01', 'serum-m-protein', '4', 'g/L', BETA],
        ['2024-01-01', 'igg', '14'],
      ],
    ],
    [
      'IgM by Greek letter',
      'M',
      [
        ['2024-01-01', 'serum-m-protein', '4', 'g/L', { method: 'SPEP (β)' }],
        ['2024-01-01', 'igm', '9'],
      ],
    ],
  ])('%s', (_, heavy, results) => {
    expect(followed(heavy, results)).toMatchObject({ name: `ig${heavy.toLowerCase()}`, because: 'beta-region' })
  })

  test.each<[string, Heavy, ResultRow[]]>([
    [
      'IgG in the gamma region',
      'G',
      [
        ['2024-01-01', 'serum-m-protein', '4', 'g/L', { method: 'capillary electrophoresis' }],
        ['2024-01-01', 'igg', '14'],
      ],
    ],
    ['a method that only begins like it', 'G', [['2024-01-01', 'igg', '14', 'g/L', { method: 'betagam nephelometry' }]]],
    ['another class than that of the protein', 'A', [['2024-01-01', 'igg', '14']]],
    ['no number', 'A', [['2024-01-01', 'iga', 'haemolysed']]],
    ['light-chain disease', 'none', [['2024-01-01', 'iga', '2']]],
    ['IgE: no criterion in its unit', 'E', [['2024-01-01', 'ige', '90000']]],
  ])('not followed: %s', (_, heavy, results) => {
    expect(followed(heavy, results)).toBeNull()
  })
})

test('it makes nothing measurable', () => {
  expect(courseOf(words('A', IGA)).measurableBy).toEqual([])
})

test('without a sample near the start of the line it has no baseline', () => {
  const early = series('iga', 'g/L', { '2023-10-01': '22' })
  expect(courseOf(words('A', early)).immunoglobulin).toMatchObject({ baseline: null, window: [] })
})

test('its window is that of the current line', () => {
  const second = courseOf(words('A', IGA, { lines: [{ start: '2024-01-05', end: '2024-03-15' }, { start: '2024-03-20' }] }))
  expect(second.immunoglobulin === null ? [] : shownWindow({ ...second.immunoglobulin, name: 'serum-m-protein' })).toEqual([
    '2024-03-01 8',
    '2024-04-01 11',
  ])
})
