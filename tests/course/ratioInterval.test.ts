import { expect, test } from 'vitest'
import { ratioAbnormal, ratioIntervalFor, USUAL_RATIO } from '../../lib/course/index.ts'
import { day } from '../../lib/time/index.ts'
import { decimal, type Interval } from '../../lib/units/index.ts'
import type { ResultRow } from '../builders/history.ts'
import { courseOf } from './shown.ts'

const renal = (...results: ResultRow[]) => ratioIntervalFor(courseOf({ birthDate: '1950-06-01', sex: 'male', results }), day('2020-06-01')).renal

// A man of 70: 1.28 mg/dL gives an eGFR of 60.2, 1.29 one of 59.7 (CKD-EPI 2021, Inker, NEJM 2021;385:1737).
test.each<[string, ResultRow[], boolean]>([
  ['no creatinine', [], false],
  ['eGFR just above 60', [['2020-06-01', 'creatinine', '1.28', 'mg/dL']], false],
  ['eGFR just below 60', [['2020-06-01', 'creatinine', '1.29', 'mg/dL']], true],
  ['90 days before', [['2020-03-03', 'creatinine', '200']], true],
  ['91 days before', [['2020-03-02', 'creatinine', '200']], false],
  ['the day after', [['2020-06-02', 'creatinine', '200']], false],
  [
    'the nearest counts',
    [
      ['2020-05-01', 'creatinine', '200'],
      ['2020-05-31', 'creatinine', '80'],
    ],
    false,
  ],
  ['above a limit', [['2020-06-01', 'creatinine', '>200']], true],
  ['below a limit', [['2020-06-01', 'creatinine', '<200']], false],
])('renal interval: %s', (_name, results, expected) => {
  expect(renal(...results)).toBe(expected)
})

const between = (low: string, high: string | null): Interval => ({ low: decimal(low), high: high === null ? null : decimal(high) })

test.each<[string, Interval, Interval, string]>([
  ['inside at the upper end', between('1.65', '1.65'), between('1', '1'), 'no'],
  ['above it', between('1.66', '1.66'), between('1', '1'), 'certain'],
  ['inside at the lower end', between('0.26', '0.26'), between('1', '1'), 'no'],
  ['below it', between('0.25', '0.25'), between('1', '1'), 'certain'],
  ['partly above', between('0', '2'), between('1', '1'), 'possible'],
  ['no upper end, all above', between('2', null), between('1', '1'), 'certain'],
  ['no upper end of lambda', between('1', '1'), between('1', null), 'possible'],
  ['both chains 0', between('0', '0'), between('0', '0'), 'no'],
])('ratio %s', (_name, kappa, lambda, expected) => {
  expect(ratioAbnormal({ kappa, lambda }, USUAL_RATIO)).toBe(expected)
})
