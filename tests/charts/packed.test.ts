import { expect, test } from 'vitest'
import { packCourse, unpackCourse } from '../../lib/charts/inBrowser.ts'
import { type EarlierVersion, patientCharts, patientCourse } from '../../lib/charts/index.ts'
import { type HistoryWords, labResult, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'
import { RETURNING, RETURNING_TODAY } from './invented.ts'

const courseOf = (words: HistoryWords, today: string, earlier: readonly EarlierVersion[] = []) => {
  const assessment = assessed(words, today)
  return patientCourse(assessment, patientCharts(assessment), earlier)
}

// Through JSON, as it travels.
const travelled = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T

const ODD: HistoryWords = {
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'lambda' }],
  lines: [{ start: '2024-01-02' }],
  results: [
    ...series('serum-m-protein', 'g/L', { '2024-01-01': '40', '2024-03-01': 'not detected', '2024-05-01': 'not detected', '2024-07-01': '<1' }),
    ['2024-08-01', 'serum-m-protein', 'trace'],
    ['2024-09-01', 'serum-m-protein', '3', 'g/L', { laboratory: null }],
    ['2024-09-10', 'serum-m-protein', '1.10', 'g/L', { status: 'corrected', version: 2 }],
    ...series('urine-m-protein', 'mg/(24.h)', { '2024-01-01': '900', '2024-05-01': '>5000' }),
    ...series('kappa-flc', 'mg/L', { '2024-01-01': '5', '2024-05-01': '9' }),
    ...series('lambda-flc', 'mg/L', { '2024-01-01': '800', '2024-05-01': '4' }),
  ],
}
const BEFORE: EarlierVersion = { result: labResult(['2024-09-10', 'serum-m-protein', '11', 'g/L'], 90), replacedBy: { id: 7, withdrawn: false } }

test.each([
  ['an ordinary course', courseOf(RETURNING, RETURNING_TODAY)],
  ['limits, words, corrections and no laboratory', courseOf(ODD, '2024-10-01', [BEFORE])],
  ['nothing measured', courseOf({}, '2024-10-01')],
])('what arrives is what was sent: %s', (_, plan) => {
  expect(unpackCourse(travelled(packCourse(plan)))).toEqual(plan)
})

test('it takes a third of the room at most', () => {
  const values = Object.fromEntries(
    Array.from({ length: 300 }, (_, at) => [
      `${2000 + Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}-05`,
      `${10 + (at % 7)}.${at % 10}`,
    ]),
  )
  const long = courseOf({ ...ODD, lines: [], results: series('serum-m-protein', 'g/L', values) }, '2025-10-01')
  expect(JSON.stringify(packCourse(long)).length * 3).toBeLessThan(JSON.stringify(long).length)
})
