import fc from 'fast-check'
import { expect, test } from 'vitest'
import { asSourceMeans, NOTHING_KNOWN, type RawRow } from '../../../lib/intake/index.ts'
import { resultRow } from '../rows.ts'
import { fateOf, known, taken } from './known.ts'

const COLUMNS = ['patient_id', 'collected_at', 'code', 'value', 'unit', 'status', 'reference_low', 'reported_at', 'birth_date', 'on', 'weight_kg']
const text = fc.oneof(
  fc.constantFrom('12,5', '1.234,5', '03/02/2026', '2026-03-29T02:30', '718-7', 'P1', '', 'final', '__proto__', 'constructor'),
  fc.string({ unit: 'binary', maxLength: 12 }),
)
const row: fc.Arbitrary<RawRow> = fc.record({
  kind: fc.constantFrom('patients' as const, 'course' as const, 'results' as const),
  line: fc.constant(2),
  text,
  fields: fc.dictionary(fc.constantFrom(...COLUMNS), text),
  refusal: fc.constant(null),
})

test('nothing known, or a profile that says nothing: the row itself', () => {
  fc.assert(
    fc.property(row, (raw) => {
      expect(asSourceMeans(raw, NOTHING_KNOWN)).toEqual({ raw, mappings: [], addsPatients: false })
      expect(asSourceMeans(raw, NOTHING_KNOWN).raw).toBe(raw)
      expect(asSourceMeans(raw, known()).raw).toBe(raw)
    }),
  )
})

test('whatever is known, the fields as received stay beside what they are read as, and the text of the row is never touched', () => {
  const all = known({ decimalSign: 'comma', dayOrder: 'day-first', timeZone: 'Europe/Berlin', units: { '718-7': 'g/dL' } })
  fc.assert(
    fc.property(row, (raw) => {
      const read = asSourceMeans(raw, all).raw
      expect(read.received ?? read.fields).toEqual(raw.fields)
      expect([read.text, read.line, read.kind]).toEqual([raw.text, raw.line, raw.kind])
      if (raw.fields.unit !== undefined && raw.fields.unit.trim() !== '') expect(read.fields.unit).toBe(raw.fields.unit)
    }),
  )
})

test('a unit for a code, by the code as received or what it stands for, where the row names none', () => {
  const mapping = { id: 1, kind: 'code', received: 'HB', ofCode: null, meaning: '718-7' } as const
  const bare = { value: '9', unit: '' }
  expect(taken({ ...bare, code: '718-7' }, known({ units: { '718-7': 'g/dL' } }))).toMatchObject({
    value: { printedUnit: 'g/dL' },
    provenance: { valueText: '9', unitText: '' },
  })
  expect(taken({ ...bare, code: 'HB' }, known({ units: { HB: 'g/dL' } }, [mapping])).value).toMatchObject({ printedUnit: 'g/dL' })
  expect(taken({ ...bare, code: 'HB' }, known({ units: { '718-7': 'g/dL' } }, [mapping])).value).toMatchObject({ printedUnit: 'g/dL' })
  // The code as received is the nearer word.
  const both = known({ units: { HB: 'g/dL', '718-7': 'mmol/L' } }, [mapping])
  expect(taken({ ...bare, code: 'HB' }, both).value).toMatchObject({ printedUnit: 'g/dL' })
})

test('a unit is never overruled, never lent to another code, and none is no unit', () => {
  const source = known({ units: { '718-7': 'g/dL' } })
  expect(taken({ code: '718-7', value: '90', unit: 'g/L' }, source).value).toMatchObject({ printedUnit: 'g/L' })
  expect(fateOf({ code: '33358-3', value: '9', unit: '' }, source)).toBe('unit-missing')
  expect(fateOf({ code: 'toString', value: '9', unit: '' }, source)).toBe('unknown-code')
  expect(asSourceMeans(resultRow({ code: 'constructor', unit: '' }), source).raw.fields.unit).toBe('')
})
