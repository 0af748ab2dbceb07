import { expect, test } from 'vitest'
import {
  type CourseMode,
  courseTable,
  dayAt,
  dayCount,
  keptInside,
  namedStretches,
  readingDays,
  readingOn,
  readingSays,
  SHORTEST_STRETCH,
  stretchSays,
} from '../../lib/charts/inBrowser.ts'
import { patientCharts, patientCourse } from '../../lib/charts/index.ts'
import { addDays, day, daysBetween } from '../../lib/time/index.ts'
import { type HistoryWords, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'
import { RETURNING, RETURNING_TODAY } from './invented.ts'

const courseOf = (words: HistoryWords, today: string) => {
  const assessment = assessed(words, today)
  return patientCourse(assessment, patientCharts(assessment), [])
}
const plan = courseOf(RETURNING, RETURNING_TODAY)
const on = (text: string) => dayCount(plan, day(text))
const MAIN = 'North laboratory'

test('days are counted as the calendar counts them, leap days too', () => {
  for (const text of ['2022-01-10', '2024-02-29', '2024-03-01', '2025-12-31']) {
    expect(dayCount(plan, day(text))).toBe(daysBetween(plan.from, day(text)))
    expect(dayAt(plan, daysBetween(plan.from, day(text)))).toBe(addDays(plan.from, daysBetween(plan.from, day(text))))
  }
})

test('a reading tells all markers of a day, exact, with line and phase', () => {
  expect(readingSays(readingOn(plan, on('2025-09-20'), MAIN))).toBe(
    'On 2025-09-20: serum M-protein 15 g/L (+5 g/L, +50.0 % from lowest confirmed). kappa 141 mg/L. lambda <2 mg/L (known only as a limit). ' +
      'dFLC <=141 mg/L (between +120 and +122 mg/L, between +631.6 and +642.1 % from lowest confirmed; known only as a limit). ' +
      'haemoglobin 119 g/L. creatinine 95 umol/L. active. Line 2 (maintenance): lenalidomide.',
  )
})

const NEAR: HistoryWords = {
  results: [...series('serum-m-protein', 'g/L', { '2025-01-01': '10', '2025-01-29': '12' }), ['2025-01-15', 'haemoglobin', '100', 'g/L']],
}
const near = courseOf(NEAR, '2025-03-01')
const serumOn = (text: string) => readingOn(near, dayCount(near, day(text)), MAIN).rows[0]

test('a sample of another day is told with its own day, never a value in between', () => {
  expect(serumOn('2025-01-03')).toMatchObject({ value: '10 g/L', own: '2025-01-01, 2 days before' })
  expect(serumOn('2025-01-28')).toMatchObject({ value: '12 g/L', own: '2025-01-29, 1 day after' })
})

test('of two samples as near the earlier is told; beyond 14 days none is', () => {
  expect(serumOn('2025-01-15')).toMatchObject({ value: '10 g/L', own: '2025-01-01, 14 days before' })
  expect(serumOn('2025-02-12')).toMatchObject({ value: '12 g/L', own: '2025-01-29, 14 days before' })
  expect(serumOn('2025-02-13')).toMatchObject({ value: null, own: null })
  expect(readingSays(readingOn(near, dayCount(near, day('2025-02-13')), MAIN))).toBe(
    'On 2025-02-13: no sample within 14 days: serum M-protein, haemoglobin.',
  )
})

test('the cursor stops at every day something was measured or done, each once, in order', () => {
  expect(readingDays(near).map((count) => dayAt(near, count))).toEqual(['2025-01-01', '2025-01-15', '2025-01-29'])
})

test('stretches to choose: all of it, the last 12 months, the window of the line with its baseline', () => {
  expect(namedStretches(plan).map((one) => `${one.name}: ${stretchSays(plan, one)}`)).toEqual([
    'whole course: 2022-01-10 to 2025-10-01, 1360 days',
    'last 12 months: 2024-10-01 to 2025-10-01, 365 days',
    'line 2: 2023-01-20 to 2025-10-01, 985 days',
  ])
  expect(namedStretches(near).map(({ name }) => name)).toEqual(['whole course'])
})

test('a stretch stays inside the course and is never shorter than four weeks; the handle that moves gives way', () => {
  expect(keptInside(plan, { from: -20, to: 5000 }, 'to')).toEqual({ from: 0, to: plan.length })
  expect(keptInside(plan, { from: 900, to: 910 }, 'from')).toEqual({ from: 910 - SHORTEST_STRETCH, to: 910 })
  expect(keptInside(plan, { from: 900, to: 910 }, 'to')).toEqual({ from: 900, to: 900 + SHORTEST_STRETCH })
  expect(keptInside({ length: 10 }, { from: 4, to: 6 }, 'to')).toEqual({ from: 0, to: 10 })
})

test.each<[CourseMode, string, string]>([
  ['absolute', 'serum M-protein, g/L', '15'],
  ['logarithmic', 'serum M-protein, g/L', '15'],
  ['from-lowest', 'serum M-protein, from lowest confirmed', '+5 g/L, +50.0 %'],
])('the table follows the mode: %s', (mode, column, cell) => {
  const { columns, rows } = courseTable(plan, mode, MAIN)
  expect([columns[0], rows[0]?.on, rows[0]?.cells[0]]).toEqual([column, '2025-09-20', cell])
  // Every sample day has its row, and no other.
  expect(rows.map((row) => row.on)).toEqual(
    readingDays(plan)
      .map((count) => dayAt(plan, count))
      .toReversed(),
  )
})

test('the table notes what was corrected and where laboratory or method changed', () => {
  const note = (text: string) => courseTable(plan, 'absolute', MAIN).rows.find((row) => row.on === text)?.note
  expect(note('2025-07-01')).toBe('serum M-protein: corrected report; serum M-protein: laboratory changed')
  expect(note('2025-03-04')).toBe('serum M-protein: South laboratory')
})
