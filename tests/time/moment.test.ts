import { expect, test } from 'vitest'
import { parseMoment } from '../../lib/time/index.ts'

test('a day, and a time with its offset at the place where it was written', () => {
  expect(parseMoment('2024-01-10')).toMatchObject({ on: '2024-01-10', text: '2024-01-10' })
  expect(parseMoment('2024-01-10T00:30:00+02:00')).toMatchObject({ on: '2024-01-10' })
})

test('moments are ordered by what they are, not by how they are written', () => {
  const order = (text: string) => parseMoment(text)?.order ?? Number.NaN
  expect(order('2024-01-10T08:00:00Z')).toBe(order('2024-01-10T10:00:00+02:00'))
  expect(order('2024-01-10T08:00Z')).toBe(Date.UTC(2024, 0, 10, 8))
  expect(order('2024-01-10')).toBe(Date.UTC(2024, 0, 10))
})

test('a leap second is the last of a day of UTC, wherever it was written', () => {
  const order = Date.UTC(2016, 11, 31, 23, 59, 59)
  expect(parseMoment('2016-12-31T23:59:60Z')).toMatchObject({ on: '2016-12-31', order })
  expect(parseMoment('2017-01-01T00:59:60+01:00')).toMatchObject({ on: '2017-01-01', order })
})

// FHIR R4, the form of dateTime: no year 0000, no offset beyond 14 hours.
test.each(['2024-01-10T08:15:60Z', '2024-01-10T24:00Z', '2024-01-10T08:00+25:00', '2024-01-10T08:00+14:30', '0000-01-10T08:00Z', '0000-01-10'])(
  '"%s" is no moment',
  (text) => {
    expect(parseMoment(text)).toBe(null)
  },
)

test.each(['2024-01-10T08:00+14:00', '2024-01-10T08:00-12:00', '2024-01-10T08:00+0530'])('"%s" is one', (text) => {
  expect(parseMoment(text)).toMatchObject({ on: '2024-01-10' })
})

test.each(['2024-01-10T08:00:00', '2024-02-30T08:00:00Z', '2024-01-10T25:00:00Z', '2024-01-10 08:00Z', '10.01.2024', ''])(
  '"%s" is never guessed',
  (text) => {
    expect(parseMoment(text)).toBe(null)
  },
)
