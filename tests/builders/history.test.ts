import { expect, test } from 'vitest'
import { decimalText } from '../../lib/units/index.ts'
import { labResult, series } from './history.ts'

test('a value printed in another unit is kept in the analyte unit, exactly', () => {
  const { value, referenceHigh } = labResult(['2020-01-01', 'calcium', '11', 'mg/dL', { referenceHigh: '10.4' }])
  if (value.kind !== 'number') throw new Error('a number was expected')
  expect(decimalText(value.kept.low)).toBe('2.7445')
  expect(decimalText(value.printed.low)).toBe('11')
  expect(referenceHigh && decimalText(referenceHigh.kept)).toBe('2.5948')
})

test('words become what they mean', () => {
  expect(labResult(['2020-01-01', 'serum-m-protein', 'not detected']).value).toEqual({ kind: 'not-detected' })
  expect(labResult(['2020-01-01', 'serum-m-protein', 'trace']).value).toEqual({ kind: 'present', upTo: null })
  expect(labResult(['2020-01-01', 'creatinine', 'haemolysed']).value).toEqual({ kind: 'none', reason: 'haemolysed' })
  expect(labResult(['2020-01-01', 'serum-immunofixation', 'negative']).value).toEqual({ kind: 'immunofixation', reading: { reading: 'negative' } })
})

test('a unit of another analyte is a mistake of the test', () => {
  expect(() => labResult(['2020-01-01', 'creatinine', '90', 'g/L'])).toThrow('creatinine is not printed in "g/L"')
})

test('a series is one row a day', () => {
  expect(series('creatinine', 'umol/L', { '2020-01-01': '90', '2020-02-01': '95' })).toEqual([
    ['2020-01-01', 'creatinine', '90', 'umol/L', {}],
    ['2020-02-01', 'creatinine', '95', 'umol/L', {}],
  ])
})
