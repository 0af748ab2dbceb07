import { describe, expect, test } from 'vitest'
import { type Course, DEFAULT_THRESHOLDS, egfr, ratioIntervalFor, ratioIntervals, type Thresholds, traceCourse } from '../../lib/course/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'

const under = (words: HistoryWords, chosen: Partial<Thresholds>): Course =>
  traceCourse(history(words), day('2024-12-31'), { ...DEFAULT_THRESHOLDS, ...chosen })
const baselineOn = (words: HistoryWords, chosen: Partial<Thresholds>, sampledOn: string) =>
  under({ ...words, results: series('serum-m-protein', 'g/L', { [sampledOn]: '20' }) }, chosen).markers['serum-m-protein'].baseline?.on ?? null

const LINE: HistoryWords = { diagnosis: ['2024-01-01', 'active'], lines: [{ start: '2024-06-30' }] }

describe('what a clinic chooses moves the edge', () => {
  test.each([
    [60, '2024-05-01', '2024-05-01'],
    [60, '2024-04-30', null],
    [61, '2024-04-30', '2024-04-30'],
    [59, '2024-05-01', null],
  ])('baseline at most %i days before a line: sample of %s', (baselineBeforeDays, sampledOn, expected) => {
    expect(baselineOn(LINE, { baselineBeforeDays }, sampledOn)).toBe(expected)
  })

  test.each([
    [7, '2024-07-07', '2024-07-07'],
    [7, '2024-07-08', null],
    [8, '2024-07-08', '2024-07-08'],
    [6, '2024-07-07', null],
  ])('or at most %i days after its start: sample of %s', (baselineAfterDays, sampledOn, expected) => {
    expect(baselineOn(LINE, { baselineAfterDays }, sampledOn)).toBe(expected)
  })

  test.each([
    [90, '2024-03-31', '2024-03-31'],
    [90, '2024-04-01', null],
    [91, '2024-04-01', '2024-04-01'],
    [89, '2024-03-31', null],
  ])('baseline at most %i days around a diagnosis: sample of %s', (baselineAroundDays, sampledOn, expected) => {
    expect(baselineOn({ diagnosis: ['2024-01-01', 'smouldering'] }, { baselineAroundDays }, sampledOn)).toBe(expected)
  })
})

// A man of 70. eGFR by CKD-EPI 2021 (Inker, NEJM 2021;385:1737) one step on each side of 60, 45 and 30.
const interval = (creatinine: string, ratioInterval: Thresholds['ratioInterval']) => {
  const course = under({ birthDate: '1950-06-01', results: [['2020-06-01', 'creatinine', creatinine, 'mg/dL']] }, { ratioInterval })
  const { low, high, renal } = ratioIntervalFor(course, day('2020-06-01'))
  return `${low}-${high}${renal ? ' renal' : ''}`
}

// Intervals: Katzmann, Clin Chem 2002;48:1437; Hutchison, CJASN 2008;3:1684; graded: Long, Blood Cancer J 2022;12:133 (from memory).
test.each([
  ['1.28', '60.21', '0.26-1.65', '0.26-1.65'],
  ['1.29', '59.65', '0.37-3.1 renal', '0.46-2.62 renal'],
  ['1.63', '45.05', '0.37-3.1 renal', '0.46-2.62 renal'],
  ['1.64', '44.72', '0.37-3.1 renal', '0.48-3.38 renal'],
  ['2.28', '30.12', '0.37-3.1 renal', '0.48-3.38 renal'],
  ['2.29', '29.96', '0.37-3.1 renal', '0.54-3.30 renal'],
])('creatinine %s mg/dL, eGFR %s: %s, graded %s', (creatinine, rate, below60, graded) => {
  expect(egfr({ creatinineMgDl: Number(creatinine), age: 70, sex: 'male' }).toFixed(2)).toBe(rate)
  expect(interval(creatinine, 'below-60')).toBe(below60)
  expect(interval(creatinine, 'graded')).toBe(graded)
})

test('the policy decides whether a ratio is abnormal, and so which chain is involved and whether the disease is measurable', () => {
  const words: HistoryWords = {
    birthDate: '1950-06-01',
    diagnosis: ['2020-06-01', 'active'],
    lines: [{ start: '2020-06-02' }],
    results: [
      ['2020-06-01', 'creatinine', '1.29', 'mg/dL'],
      ['2020-06-01', 'kappa-flc', '270'],
      ['2020-06-01', 'lambda-flc', '100'],
    ],
  }
  const shown = ({ involved, measurableBy }: Course) => [involved?.chain ?? null, measurableBy]
  expect(shown(under(words, { ratioInterval: 'below-60' }))).toEqual([null, []])
  expect(shown(under(words, { ratioInterval: 'graded' }))).toEqual(['kappa', ['light-chain']])
})

test('every interval of a policy is named, the usual one first', () => {
  expect(ratioIntervals('below-60').map(({ low }) => low)).toEqual(['0.26', '0.37'])
  expect(ratioIntervals('graded').map(({ low }) => low)).toEqual(['0.26', '0.54', '0.48', '0.46'])
})
