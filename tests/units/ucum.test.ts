import { UcumLhcUtils } from '@lhncbc/ucum-lhc'
import { expect, test, vi } from 'vitest'
import { type Bridge, decimalText, unitFactor } from '../../lib/units/index.ts'

const CALCIUM: Bridge = { from: 'mg/dL', factor: '0.2495' }
const CREATININE: Bridge = { from: 'mg/dL', factor: '88.4' }
const HAEMOGLOBIN: Bridge = { from: 'mmol/L', factor: '16.114' }

function said(text: string, kept: string, bridge: Bridge | null = null): string {
  const reading = unitFactor(text, kept, bridge)
  return reading.ok ? decimalText(reading.factor) : reading.reason
}

test.each(['g/L', 'mg/24 h', 'mg/L', '1', '[IU]/mL', '10*9/L', 'mmol/L', 'umol/L', 'U/L', '%'])('%s is kept as it is', (unit) => {
  expect(unitFactor(unit, unit)).toMatchObject({ ok: true, ucum: unit })
  expect(said(unit, unit)).toBe('1')
})

// Factors of the prefixes: UCUM, https://ucum.org/ucum. Calcium 0.2495, creatinine 88.4, haemoglobin 16.114: the specification's table of analytes.
test.each([
  ['g/dL', 'g/L', null, '10'],
  ['mg/dL', 'g/L', null, '0.01'],
  ['g/(24.h)', 'mg/24 h', null, '1000'],
  ['mg/dL', 'mg/L', null, '10'],
  ['ug/mL', 'mg/L', null, '1'],
  ['10*3/uL', '10*9/L', null, '1'],
  ['mmol/L', 'g/L', HAEMOGLOBIN, '16.114'],
  ['mg/dL', 'mmol/L', CALCIUM, '0.2495'],
  ['mg/L', 'mmol/L', CALCIUM, '0.02495'],
  ['mg/dL', 'umol/L', CREATININE, '88.4'],
  ['mmol/L', 'umol/L', null, '1000'],
  ['ukat/L', 'U/L', null, '60'],
  ['k[IU]/L', '[IU]/mL', null, '1'],
  ['/uL', '10*9/L', null, '0.001'],
])('%s to %s is exact', (text, kept, bridge, factor) => {
  expect(said(text, kept, bridge)).toBe(factor)
})

test.each([
  ['mg/dl', 'g/L', '0.01'],
  ['g/l', 'g/L', '1'],
  ['gm/dL', 'g/L', '10'],
  ['mcg/mL', 'mg/L', '1'],
  ['µg/mL', 'mg/L', '1'],
  ['μg/mL', 'mg/L', '1'],
  ['umol/l', 'umol/L', '1'],
  ['µmol/L', 'umol/L', '1'],
  ['10^3/uL', '10*9/L', '1'],
  ['x10E3/uL', '10*9/L', '1'],
  ['K/uL', '10*9/L', '1'],
  ['10^9/L', '10*9/L', '1'],
  ['mg/24h', 'mg/24 h', '1'],
  ['mg/24 h', 'mg/24 h', '1'],
  ['mg/24hr', 'mg/24 h', '1'],
  ['mg/d', 'mg/24 h', '1'],
  ['IU/L', 'U/L', '1'],
  ['', '1', '1'],
  ['{ratio}', '1', '1'],
])('the synonym "%s" for %s', (text, kept, factor) => {
  expect(said(text, kept)).toBe(factor)
})

test.each([
  ['mgdL', 'g/L', 'unit-unknown', 'misspelt'],
  ['MG/DL', 'g/L', 'unit-unknown', 'codes are case sensitive'],
  ['gram/L', 'g/L', 'unit-unknown', 'the library would guess'],
  ['', 'g/L', 'unit-unknown', 'no unit'],
  ['g/L/0', 'g/L', 'unit-unknown', 'the library reads a factor 0 as 1'],
  ['constructor', 'g/L', 'unit-unknown', 'a word of every object'],
  ['__proto__', 'g/L', 'unit-unknown', 'a word like any other'],
  ['K/uL', 'g/L', 'unit-dimension', 'kelvin where nothing is counted'],
  ['mg/L', 'mg/24 h', 'unit-dimension', 'a concentration is no amount of a day'],
  ['mg/24.h', 'mg/24 h', 'unit-dimension', 'UCUM reads mg times hours'],
  ['mg/dL', 'mmol/L', 'unit-dimension', 'mass to amount without a bridge'],
  ['[pH]', 'mmol/L', 'unit-dimension', 'no plain multiple'],
  ['IU/L', 'g/L', 'unit-unknown', 'a synonym for enzymes only'],
  ['[IU]/L', 'g/L', 'unit-dimension', 'activity is no mass'],
  ['{cells}', '%', 'unit-dimension', 'an annotation has no scale'],
  ['kU/L', '[IU]/mL', 'unit-dimension', 'enzyme units are no international units of IgE'],
])('"%s" for %s is %s: %s', (text, kept, reason) => {
  expect(said(text, kept)).toBe(reason)
})

test('the library is asked once for a unit, however many rows carry it', () => {
  const asked = vi.spyOn(Object.getPrototypeOf(UcumLhcUtils.getInstance()) as ReturnType<typeof UcumLhcUtils.getInstance>, 'convertUnitTo')
  for (let row = 0; row < 10_000; row++) unitFactor('pg/cL', 'g/L')
  expect(asked.mock.calls.length).toBe(2)
})
