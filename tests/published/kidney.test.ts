import { expect, test } from 'vitest'
import { adjustedCalcium, cockcroftGault, egfr } from '../../lib/course/index.ts'
import { decimal, decimalText } from '../../lib/units/index.ts'
import reference from './reference/stats_ckdepi2021.json' with { type: 'json' }

// Source of the formula and of these cases: Inker, NEJM 2021;385:1737, computed in R.
test.each(reference.cases)('eGFR of $creatinine_mgdl mg/dL, $age y, $sex', (one) => {
  const rate = egfr({ creatinineMgDl: one.creatinine_mgdl, age: one.age, sex: one.sex === 'F' ? 'female' : 'male' })
  expect(rate).toBeCloseTo(one.egfr, 9)
  expect(Math.round(rate)).toBe(one.egfr_rounded)
})

// Check values: common practice (clinical specification 1.5), formula Inker 2021.
test.each([
  ['male', 70, 0.8, 95.2],
  ['female', 70, 0.8, 79.2],
] as const)('eGFR %s %i y %f mg/dL is %f', (sex, age, creatinineMgDl, expected) => {
  expect(egfr({ creatinineMgDl, age, sex }).toFixed(1)).toBe(String(expected))
})

test('eGFR of a woman of 55 with 0.9 mg/dL is about 76', () => {
  expect(Math.abs(egfr({ creatinineMgDl: 0.9, age: 55, sex: 'female' }) - 76)).toBeLessThan(1)
})

// Cockcroft and Gault, Nephron 1976;16:31.
test.each([
  ['male', 65, 70, 1.4, '52.1'],
  ['female', 45, 60, 0.9, '74.8'],
  ['male', 60, 80, 1.2, '74.1'],
  ['male', 50, 80, 1.0, '100.0'],
] as const)('clearance %s %i y %i kg %f mg/dL is %s', (sex, age, weightKg, creatinineMgDl, expected) => {
  expect(cockcroftGault({ creatinineMgDl, age, sex, weightKg }).toFixed(1)).toBe(expected)
})

// After Payne, BMJ 1973;4:643.
test('calcium 1.83 mmol/L with albumin 26 g/L is 2.11 adjusted, exactly', () => {
  expect(decimalText(adjustedCalcium(decimal('1.83'), decimal('26')))).toBe('2.11')
})
