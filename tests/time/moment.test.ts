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

test.each(['2024-01-10T08:00:00', '2024-02-30T08:00:00Z', '2024-01-10T25:00:00Z', '2024-01-10 08:00Z', '10.01.2024', ''])(
  '"%s" is never guessed',
  (text) => {
    expect(parseMoment(text)).toBe(null)
  },
)
