import { describe, expect, test } from 'vitest'
import { derivedValues } from '../../lib/rules/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

const derived = (results: readonly ResultRow[], more: HistoryWords = {}) =>
  derivedValues(courseOf({ birthDate: '1950-06-01', sex: 'male', results, ...more }))
const named = (name: string, results: readonly ResultRow[], more: HistoryWords = {}) =>
  derived(results, more).find((value) => value.name === name) ?? null

// Check values: CKD-EPI 2021 (Inker, NEJM 2021;385:1737), common practice.
test.each([
  ['male', '0.8', '95 mL/min/1.73 m2'],
  ['female', '0.8', '79 mL/min/1.73 m2'],
  ['male', '<0.8', 'at least 95 mL/min/1.73 m2'],
  ['male', '>0.8', 'at most 95 mL/min/1.73 m2'],
] as const)('eGFR of a %s of 70 with %s mg/dL is %s, with its formula and what it rests on', (sex, creatinine, value) => {
  expect(named('eGFR', [['2020-06-01', 'creatinine', creatinine, 'mg/dL']], { sex })).toEqual({
    name: 'eGFR',
    value,
    formula: 'CKD-EPI 2021, creatinine (Inker, NEJM 2021;385:1737)',
    from: `creatinine ${creatinine} mg/dL`,
    on: '2020-06-01',
    mind: null,
  })
})

// Cockcroft and Gault, Nephron 1976;16:31: a man of 65, 70 kg, 1.4 mg/dL has 52.1 mL/min.
test('clearance stands where a weight is known, and says so', () => {
  const results: ResultRow[] = [['2015-06-01', 'creatinine', '1.4', 'mg/dL']]
  expect(named('Creatinine clearance', results, { weightKg: '70' })).toMatchObject({
    value: '52 mL/min',
    formula: 'Cockcroft-Gault (Nephron 1976;16:31)',
    from: 'creatinine 1.4 mg/dL, weight 70 kg',
  })
  expect(named('Creatinine clearance', results)).toBeNull()
})

describe('adjusted calcium', () => {
  const calcium: ResultRow = ['2020-06-01', 'calcium', '1.83']

  // After Payne, BMJ 1973;4:643.
  test('stands beside total calcium, never instead of it', () => {
    expect(named('Adjusted calcium', [calcium, ['2020-06-01', 'albumin', '26']])).toMatchObject({
      value: '2.11 mmol/L',
      from: 'total calcium 1.83 mmol/L, albumin 26 g/L',
      mind: 'Shown beside total calcium, never instead of it: it misleads where an M-protein binds calcium.',
    })
  })

  test('asks for the albumin of the same day', () => {
    expect(named('Adjusted calcium', [calcium, ['2020-05-31', 'albumin', '26']])).toBeNull()
  })
})

describe('kappa/lambda ratio', () => {
  const pair = (lambda: string): ResultRow[] => [
    ['2020-06-01', 'kappa-flc', '33'],
    ['2020-06-01', 'lambda-flc', lambda],
  ]

  test('names the interval it is held against', () => {
    expect(named('Kappa/lambda ratio', pair('10'))).toMatchObject({
      value: '3.30',
      formula: 'kappa / lambda; reference interval 0.26 to 1.65',
      mind: null,
    })
    const reduced = named('Kappa/lambda ratio', [...pair('10'), ['2020-06-01', 'creatinine', '2', 'mg/dL']])
    expect(reduced).toMatchObject({ formula: 'kappa / lambda; reference interval 0.37 to 3.1, for reduced kidney function' })
  })

  test('gives no number from a limit', () => {
    expect(named('Kappa/lambda ratio', pair('<1'))?.value).toBe('no number: a chain is known only as a limit')
  })
})

test('nothing measured, nothing computed', () => {
  expect(derived([])).toEqual([])
})
