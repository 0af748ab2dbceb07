import { expect, test } from 'vitest'
import { decimal, decimalText, larger, parseDecimal, roundedText, smaller } from '../../lib/units/index.ts'

test.each([
  ['14.2', '14.2'],
  ['15.0', '15'],
  ['.5', '0.5'],
  ['5.', '5'],
  ['1.2e1', '12'],
  ['-0', '0'],
  ['+3', '3'],
  ['0.0000001', '0.0000001'],
  ['1e21', '1000000000000000000000'],
])('%s is written %s', (text, shown) => {
  expect(decimalText(decimal(text))).toBe(shown)
})

test.each(['NaN', 'Infinity', '0x10', '12,5', '1e309', '', ' 1', '1 000', '--1', '.', 'e5', '1_000'])('"%s" is no number', (text) => {
  expect(parseDecimal(text)).toBe(null)
  expect(() => decimal(text)).toThrow(RangeError)
})

test('sums are exact where binary floating point is not', () => {
  expect(decimalText(decimal('2.3').minus(decimal('1.8')))).toBe('0.5')
  expect(decimalText(decimal('0.1').plus(decimal('0.2')))).toBe('0.3')
})

test.each([
  ['0.25', '0.3'],
  ['-0.25', '-0.3'],
  ['0.24', '0.2'],
  ['24.95', '25.0'],
  ['0', '0.0'],
])('%s rounds to %s, half away from zero', (text, shown) => {
  expect(roundedText(decimal(text), 1)).toBe(shown)
})

test('the smaller and the larger of two', () => {
  const [a, b] = [decimal('9'), decimal('10')]
  expect([smaller(a, b), smaller(b, a), larger(a, b), larger(b, a)].map(decimalText)).toEqual(['9', '9', '10', '10'])
})
