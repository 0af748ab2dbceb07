import fc from 'fast-check'
import { expect, test } from 'vitest'
import { interpretResult } from '../../lib/intake/index.ts'
import { remembered } from '../../lib/intake/remembered.ts'
import { patient, resultRow, TODAY } from './rows.ts'

test('the same texts are read once and others afresh, however their letters are divided', () => {
  const asked: string[] = []
  const read = remembered((a, b, c) => {
    asked.push(`${a}|${b}|${c}`)
    return asked.length
  })
  expect([read('a', 'b', 'c'), read('ab', '', 'c'), read('a', 'b', 'c'), read('', 'ab', 'c'), read('ab', '', 'c')]).toEqual([1, 2, 1, 3, 2])
  const long = 'x'.repeat(200)
  expect([read(long, '', ''), read(long, '', '')]).toEqual([4, 5])
})

test('no more than 20,000 answers are kept, and each stays the right one', () => {
  const read = remembered((a, b, c) => a + b + c)
  for (let at = 0; at < 45_000; at++) expect(read(String(at), '', '')).toBe(String(at))
  expect(read('7', '', '')).toBe('7')
})

test('a row reads the same the second time, whatever stands in it', () => {
  const words = fc.constantFrom('14.2', '<1', '>5', '12,5', 'NaN', '', 'trace', 'not detected', '-3', '1e309', '999', 'IgG kappa', '5.0')
  const units = fc.constantFrom('g/L', 'g/dL', 'mg/dL', '', 'furlong', 'mg/24 h', 'mmol/L')
  const codes = fc.constantFrom('33358-3', '718-7', '2160-0', '25700-6', '42482-0')
  fc.assert(
    fc.property(words, units, codes, words, words, (value, unit, code, low, high) => {
      const raw = () => resultRow({ value, unit, code, reference_low: low, reference_high: high })
      const first = interpretResult(raw(), patient(), TODAY)
      expect(interpretResult(raw(), patient(), TODAY)).toEqual(first)
    }),
    { numRuns: 2_000 },
  )
})
