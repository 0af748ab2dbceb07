import { expect, test } from 'vitest'
import { interpretPatient } from '../../lib/intake/index.ts'
import { day, parseBirthDate } from '../../lib/time/index.ts'
import { decimal } from '../../lib/units/index.ts'
import { patient, rowOf, TODAY } from './rows.ts'

const BASE = { patient_id: 'P1', birth_date: '1950-03-12', sex: 'female' }

test('a new patient needs an identifier, a birth date and a sex', () => {
  expect(interpretPatient(rowOf(BASE), null, TODAY)).toEqual({ outcome: 'take', value: patient() })
  expect(interpretPatient(rowOf({ ...BASE, patient_id: ' P1 ' }), null, TODAY)).toMatchObject({ value: { id: 'P1' } })
})

test.each([
  [{ sex: '' }, 'refused', 'missing-field'],
  [{ sex: 'F' }, 'refused', 'bad-word'],
  [{ birth_date: '1950-02-30' }, 'refused', 'bad-date'],
  [{ birth_date: '12.03.50' }, 'refused', 'bad-date'],
  [{ birth_date: '2027' }, 'refused', 'bad-date'],
  [{ status: 'gone' }, 'refused', 'bad-word'],
  [{ weight_kg: '-70' }, 'refused', 'negative'],
  [{ weight_kg: 'NaN' }, 'refused', 'not-a-number'],
  [{ weight_kg: '70,5' }, 'held', 'decimal-comma'],
  [{ weight_kg: '7000' }, 'held', 'out-of-range'],
  [{ birth_date: '1950-03-13' }, 'held', 'birth-date-differs'],
  [{ birth_date: '1951' }, 'held', 'birth-date-differs'],
  [{ sex: 'male' }, 'held', 'sex-differs'],
  [{ status: 'died', status_on: '2026-07-01' }, 'held', 'happened-in-future'],
])('%o beside the known patient is %s: %s', (changes, outcome, reason) => {
  expect(interpretPatient(rowOf({ ...BASE, ...changes }), patient(), TODAY)).toMatchObject({ outcome, reason })
})

test('an empty column takes nothing away; the more precise birth date stays', () => {
  const known = patient({ familyName: 'Quill', weightKg: decimal('70'), status: 'died', statusOn: day('2026-01-02') })
  const row = rowOf({ ...BASE, birth_date: '1950', family_name: '', weight_kg: '', status: '', status_on: '' })
  expect(interpretPatient(row, known, TODAY)).toEqual({ outcome: 'take', value: known })
  const byYear = patient({ birthDate: parseBirthDate('1950') ?? known.birthDate })
  expect(interpretPatient(rowOf(BASE), byYear, TODAY)).toMatchObject({ outcome: 'take', value: { birthDate: '1950-03-12' } })
})

test('another status does not inherit the day of the one before', () => {
  const known = patient({ status: 'died', statusOn: day('2026-01-02') })
  expect(interpretPatient(rowOf({ ...BASE, status: 'followed' }), known, TODAY)).toMatchObject({ value: { status: 'followed', statusOn: null } })
})
