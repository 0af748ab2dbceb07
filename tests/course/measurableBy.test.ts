import { expect, test } from 'vitest'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf } from './shown.ts'

const by = (results: readonly ResultRow[], more: HistoryWords = {}) =>
  courseOf({ diagnosis: ['2020-01-01', 'active', { heavy: 'A', light: 'lambda' }], lines: [{ start: '2020-01-01' }], results, ...more }).measurableBy
const on = '2020-01-01'

test.each<[string, ResultRow[], string[]]>([
  ['serum 10 g/L', [[on, 'serum-m-protein', '10']], ['serum']],
  ['serum 9.9 g/L', [[on, 'serum-m-protein', '9.9']], []],
  ['serum 1 g/dL', [[on, 'serum-m-protein', '1', 'g/dL']], ['serum']],
  ['urine 200 mg/24 h', [[on, 'urine-m-protein', '200']], ['urine']],
  ['urine 199 mg/24 h', [[on, 'urine-m-protein', '199']], []],
  ['urine 0.2 g/24 h', [[on, 'urine-m-protein', '0.2', 'g/(24.h)']], ['urine']],
  [
    'lambda 100 mg/L, ratio 0.1',
    [
      [on, 'kappa-flc', '10'],
      [on, 'lambda-flc', '100'],
    ],
    ['light-chain'],
  ],
  [
    'lambda 99.9 mg/L',
    [
      [on, 'kappa-flc', '10'],
      [on, 'lambda-flc', '99.9'],
    ],
    [],
  ],
  [
    'lambda 100 mg/L, ratio 0.26: normal',
    [
      [on, 'kappa-flc', '26'],
      [on, 'lambda-flc', '100'],
    ],
    [],
  ],
  [
    'lambda 10 mg/dL, ratio 0.1',
    [
      [on, 'kappa-flc', '1', 'mg/dL'],
      [on, 'lambda-flc', '10', 'mg/dL'],
    ],
    ['light-chain'],
  ],
  ['"<300" may be below 200', [[on, 'urine-m-protein', '<300']], []],
  [
    'case 15: IgA lambda 8 g/L, lambda 9510 mg/L',
    [
      [on, 'serum-m-protein', '8'],
      [on, 'kappa-flc', '8.1'],
      [on, 'lambda-flc', '9510'],
    ],
    ['light-chain'],
  ],
])('%s', (_name, results, expected) => {
  expect(by(results)).toEqual(expected)
})

test('marrow only where nothing else can be measured, and only with a percentage at baseline', () => {
  const marrow: HistoryWords = { marrow: [['2019-12-20', '35']] }
  expect(by([[on, 'serum-m-protein', '3']], marrow)).toEqual(['marrow'])
  expect(by([[on, 'serum-m-protein', '30']], marrow)).toEqual(['serum'])
  expect(by([], { marrow: [['2019-12-20', null]] })).toEqual([])
  expect(by([], { marrow: [['2019-06-01', '35']] })).toEqual([])
})
