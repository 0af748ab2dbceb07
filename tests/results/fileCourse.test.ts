import { expect, test } from 'vitest'
import { type CourseEvent, decideEventFiling, decidePatientFiling, eventIdentity, type Patient } from '../../lib/results/index.ts'
import { day, parseBirthDate } from '../../lib/time/index.ts'
import { decimal } from '../../lib/units/index.ts'

const start = (on: string, line = 1): CourseEvent => ({ event: 'line-start', on: day(on), line, regimen: ['bortezomib'], intent: null })
const marrow = (percent: string): CourseEvent => ({
  event: 'marrow',
  on: day('2026-01-05'),
  plasmaCellsPercent: decimal(percent),
  abnormalities: [],
  mrd: null,
})

test('a line start on another day is the same event corrected; the old one sent again is known', () => {
  const [first, second] = [start('2026-01-05'), start('2026-01-07')]
  expect(eventIdentity('P1', first)).toBe(eventIdentity('P1', second))
  expect(eventIdentity('P1', first)).not.toBe(eventIdentity('P1', start('2026-01-05', 2)))
  expect(decideEventFiling(first, [])).toEqual({ outcome: 'filed', version: 1 })
  expect(decideEventFiling(second, [{ version: 1, event: first }])).toEqual({ outcome: 'corrected', version: 2 })
  const versions = [
    { version: 1, event: first },
    { version: 2, event: second },
  ]
  expect(decideEventFiling(first, versions)).toEqual({ outcome: 'known', version: 1 })
})

test('60 % and 60.0 % of plasma cells are one content, 61 % another', () => {
  expect(decideEventFiling(marrow('60.0'), [{ version: 1, event: marrow('60') }]).outcome).toBe('known')
  expect(decideEventFiling(marrow('61'), [{ version: 1, event: marrow('60') }]).outcome).toBe('corrected')
})

test('a patient is filed, known or corrected with the fields that changed', () => {
  const birthDate = parseBirthDate('1950')
  if (birthDate === null) throw new RangeError('1950')
  const none = { familyName: null, givenName: null, clinician: null, statusOn: null }
  const known: Patient = { id: 'P1', birthDate, sex: 'male', status: 'followed', weightKg: decimal('70'), ...none }
  expect(decidePatientFiling(known, null)).toEqual({ outcome: 'filed' })
  expect(decidePatientFiling({ ...known, weightKg: decimal('70.0') }, known)).toEqual({ outcome: 'known' })
  expect(decidePatientFiling({ ...known, status: 'died', weightKg: decimal('71') }, known)).toEqual({
    outcome: 'corrected',
    changed: ['weightKg', 'status'],
  })
})
