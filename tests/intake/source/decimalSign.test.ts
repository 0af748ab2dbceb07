import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asSourceMeans, interpretCourseEvent, interpretPatient } from '../../../lib/intake/index.ts'
import { decimalText } from '../../../lib/units/index.ts'
import { obx, orderOf, rowOf as rowOfMessage } from '../hl7/messages.ts'
import { patient, resultRow, rowOf, TODAY } from '../rows.ts'
import { fateOf, known, profile, readOf, taken } from './known.ts'

const COMMA = known({ decimalSign: 'comma' })
const POINT = known()

const printed = (value: string): string => {
  const { value: measured } = taken({ value }, COMMA)
  if (measured.kind === 'present') return `present up to ${measured.upTo === null ? 'nothing' : decimalText(measured.upTo)}`
  if (measured.kind !== 'number') return measured.kind
  const { comparator, printed: interval } = measured
  return `${comparator ?? ''}${decimalText(comparator?.startsWith('>') === true ? interval.low : (interval.high ?? interval.low))}`
}

describe('a decimal comma', () => {
  test.each([
    ['12,5', '12.5'],
    ['12', '12'],
    ['0,10', '0.1'],
    [',5', '0.5'],
    ['1,5e1', '15'],
    ['<0,1', '<0.1'],
    ['< 0,1', '<0.1'],
    ['less than 0,5', '<0.5'],
    ['trace (<1,5)', 'present up to 1.5'],
    ['not detected', 'not-detected'],
  ])('%s is read as %s', (text, read) => {
    expect(printed(text)).toBe(read)
  })

  test.each([
    ['1.234,5', '1234.5'],
    ['1 234,5', '1234.5'],
    ['1\u00a0234,5', '1234.5'],
    ['1\u2009234,5', '1234.5'],
    ['1\u202f234', '1234'],
    ['1.234.567', '1234567'],
  ])('%s, in groups of three, is %s', (text, read) => {
    expect(asSourceMeans(resultRow({ value: text }), COMMA).raw.fields.value).toBe(read)
  })

  test.each(['12.5', '1.234', '<0.1', '1,234.5', '12.5e1', 'trace (<1.5)', '1.23,4', '0.123,4', '1.234 567,5', '12.'])(
    '%s is held: a point has no place there',
    (text) => {
      expect(readOf(resultRow({ value: text }), COMMA)).toMatchObject({
        outcome: 'held',
        reason: 'value-unreadable',
        on: '2026-06-01',
        sentence: expect.stringContaining('a comma as its decimal sign'),
      })
    },
  )

  test.each([
    ['12,', 'value-unreadable'],
    ['1,5,0', 'value-unreadable'],
    ["1'234,5", 'thousands-separator'],
    ['0 123', 'thousands-separator'],
    ['-12,5', 'negative'],
    ['NaN', 'not-a-number'],
    ['0x1F', 'not-a-number'],
    ['1234,5', 'out-of-range'],
  ])('%s is %s, and never a number in part', (text, reason) => {
    expect(fateOf({ value: text }, COMMA)).toBe(reason)
  })

  test('the text as received stays with the result', () => {
    expect(taken({ value: '12,5' }, COMMA).provenance).toMatchObject({ valueText: '12,5', unitText: 'g/L' })
  })

  test('limits are read alike, and held alike', () => {
    const { referenceLow, referenceHigh } = taken({ value: '14,2', reference_low: '7,0', reference_high: '16,5' }, COMMA)
    expect([referenceLow, referenceHigh].map((limit) => limit && decimalText(limit.printed))).toEqual(['7', '16.5'])
    expect(fateOf({ value: '14,2', reference_low: '7.0' }, COMMA)).toBe('limit-unreadable')
    expect(fateOf({ reference_high: '16,5' }, POINT)).toBe('limit-unreadable')
  })

  test('a withdrawal never fails on the value it takes back; an immunofixation has no number', () => {
    expect(fateOf({ value: '12.5', status: 'entered-in-error' }, COMMA)).toBe('take')
    expect(taken({ code: '25700-6', value: 'IgG kappa, 1.5 and 2,5', unit: '' }, COMMA).value).toMatchObject({ kind: 'immunofixation' })
    expect(asSourceMeans(resultRow({ code: '25700-6', value: '1,5' }), COMMA).raw.fields.value).toBe('1,5')
  })

  test('a weight and the numbers of a course are read alike, and held alike', () => {
    const weight = (text: string) => {
      const { raw } = asSourceMeans(rowOf({ patient_id: 'P1', birth_date: '1950-03-12', sex: 'female', weight_kg: text }), COMMA)
      const read = interpretPatient(raw, null, TODAY)
      return read.outcome === 'take' ? read.value.weightKg && decimalText(read.value.weightKg) : read.reason
    }
    expect(['72,5', '72.5', '1.234'].map(weight)).toEqual(['72.5', 'value-unreadable', 'value-unreadable'])
    const marrow = (text: string) => {
      const row = rowOf({ patient_id: 'P1', on: '2026-01-01', event: 'marrow', plasma_cells_percent: text })
      const read = interpretCourseEvent(asSourceMeans(row, COMMA).raw, patient(), TODAY)
      return read.outcome === 'take' ? read.value : read.reason
    }
    expect(marrow('12,5')).toMatchObject({ event: 'marrow', plasmaCellsPercent: expect.anything() })
    expect(marrow('12.5')).toBe('value-unreadable')
  })

  test('HL7: number, structured number and interval', () => {
    const read = (fields: Readonly<Record<number, string>>) => {
      const answer = readOf(rowOfMessage(orderOf(obx(fields))), COMMA)
      return answer.outcome === 'take' ? answer.value : answer.reason
    }
    const limits = (text: string) => {
      const result = read({ 5: '12,5', 7: text })
      if (typeof result === 'string') return result
      return [result.referenceLow, result.referenceHigh].map((limit) => (limit === null ? '' : decimalText(limit.printed))).join(' to ')
    }
    expect(read({ 5: '12,5' })).toMatchObject({ value: { kind: 'number' }, provenance: { valueText: '12,5' } })
    expect(read({ 2: 'SN', 5: '<^0,5' })).toMatchObject({ value: { comparator: '<' } })
    expect(read({ 5: '12.5' })).toBe('value-unreadable')
    expect(readOf(rowOfMessage(orderOf(obx({ 5: '12,5' }))), POINT)).toMatchObject({ reason: 'decimal-comma' })
    expect(['7,0-16,5', '7,0 - 16,5', '<16,5', '>7,0', ''].map(limits)).toEqual(['7 to 16.5', '7 to 16.5', ' to 16.5', '7 to ', ' to '])
    // One number does not say which limit it is; a point in an interval is in doubt as in a value.
    expect(['5,0', '7.0-16,5', '7.0-16.5', '1,5,0'].map(limits)).toEqual(Array.from({ length: 4 }, () => 'limit-unreadable'))
  })

  test('a number of JSON has a point by its format, whatever its source writes elsewhere', () => {
    const json = { ...resultRow({ value: '12.5' }), text: '{"resourceType":"Observation"}' }
    expect(readOf(json, COMMA).outcome).toBe('take')
    expect(readOf({ ...json, fields: { ...json.fields, value: '12,5' } }, COMMA)).toMatchObject({ reason: 'decimal-comma' })
  })
})

test('with the sign point nothing changes', () => {
  const texts = ['12,5', '12.5', '1.234,5', '1,234', '<0,1', 'trace (<1,5)']
  expect(texts.map((value) => asSourceMeans(resultRow({ value }), POINT).raw)).toEqual(texts.map((value) => resultRow({ value })))
  expect(fateOf({ value: '12,5' }, POINT)).toBe('decimal-comma')
})

test('any number written with a comma, in groups or not, reads as the same number written with a point', () => {
  const mark = fc.constantFrom('', '.', ' ', '\u00a0', '\u202f')
  fc.assert(
    fc.property(fc.nat(99_999_999), fc.stringMatching(/^\d{1,6}$/), mark, fc.constantFrom('', '<', '>= '), (whole, part, by, sign) => {
      const grouped = String(whole).replace(/\B(?=(\d{3})+$)/g, by)
      const { raw } = asSourceMeans(resultRow({ value: `${sign}${grouped},${part}` }), { ...COMMA, profile: profile({ decimalSign: 'comma' }) })
      expect(raw.fields.value).toBe(`${sign}${whole}.${part}`)
    }),
  )
})

test('any text at all: what is read under the comma has the digits of the text, in their order', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[<>= -]{0,2}[\d., ]{0,12}[a-z]{0,3}$/), (value) => {
      const { raw } = asSourceMeans(resultRow({ value }), COMMA)
      const digits = (text: string | undefined) => text?.replace(/\D/g, '')
      expect(digits(raw.fields.value)).toBe(digits(value))
      const read = readOf(resultRow({ value }), COMMA)
      if (read.outcome === 'take' && /\d/.test(value)) expect(value).not.toMatch(/\.\d{1,2}(?!\d)/)
    }),
    { numRuns: 2000 },
  )
})
