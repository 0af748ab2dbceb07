import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays, addMonths, compareDays, day, daysBetween, earlierDay, laterDay, parseDay } from '../../lib/time/index.ts'

test.each(['2024-02-29', '2000-02-29', '2023-12-31', '1900-01-01'])('%s is a day', (text) => {
  expect(parseDay(text)).toBe(text)
})

// 1900 was no leap year (Gregorian calendar).
test.each([
  '2026-02-30',
  '2023-02-29',
  '1900-02-29',
  '2024-13-01',
  '2024-00-10',
  '24-01-01',
  '2024-1-1',
  '2024-01-01T00:00Z',
  '',
  ' 2024-01-01',
  '20240101',
])('"%s" is none', (text) => {
  expect(parseDay(text)).toBe(null)
  expect(() => day(text)).toThrow(RangeError)
})

test.each([
  ['2024-02-28', '2024-03-01', 2],
  ['2023-02-28', '2023-03-01', 1],
  ['2024-03-30', '2024-04-01', 2],
  ['2024-01-01', '2023-12-31', -1],
])('from %s to %s is %i days', (from, to, days) => {
  expect(daysBetween(day(from), day(to))).toBe(days)
})

test('days added are days between', () => {
  fc.assert(
    fc.property(fc.integer({ min: -40_000, max: 40_000 }), (count) => {
      const from = day('2000-06-15')
      expect(daysBetween(from, addDays(from, count))).toBe(count)
    }),
  )
})

test.each([
  ['2024-01-31', 1, '2024-02-29'],
  ['2023-01-31', 1, '2023-02-28'],
  ['2024-02-29', 12, '2025-02-28'],
  ['2024-03-31', -1, '2024-02-29'],
  ['2024-11-30', 3, '2025-02-28'],
])('%s and %i calendar months is %s', (from, months, to) => {
  expect(addMonths(day(from), months)).toBe(to)
})

test('earlier, later and order', () => {
  const [a, b] = [day('2024-01-09'), day('2024-01-10')]
  expect([compareDays(a, b), compareDays(b, a), compareDays(a, a)]).toEqual([-1, 1, 0])
  expect([earlierDay(a, b), earlierDay(b, a), laterDay(a, b), laterDay(b, a)]).toEqual([a, a, b, b])
})
