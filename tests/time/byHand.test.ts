import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { expect, test } from 'vitest'
import { addDays, addMonths, ageAt, day, parseBirthDate } from '../../lib/time/index.ts'

const anyDay = fc.integer({ min: 0, max: 60_000 }).map((count) => addDays(day('1900-01-01'), count))

test('law: months added by hand are those of the calendar library, the last day of a shorter month included', () => {
  fc.assert(
    fc.property(anyDay, fc.integer({ min: -600, max: 600 }), (from, months) => {
      expect(addMonths(from, months)).toBe(Temporal.PlainDate.from(from).add({ months }, { overflow: 'constrain' }).toString())
    }),
    { numRuns: 2000 },
  )
  expect(addMonths(day('2024-01-31'), 1)).toBe('2024-02-29')
  expect(addMonths(day('2023-12-31'), 2)).toBe('2024-02-29')
  expect(addMonths(day('0001-01-31'), 1)).toBe('0001-02-28')
})

test('law: years counted by hand are those of the calendar library, before birth too', () => {
  fc.assert(
    fc.property(anyDay, anyDay, (born, on) => {
      const birth = parseBirthDate(born)
      if (birth === null) throw new Error('no day')
      const { years } = Temporal.PlainDate.from(born).until(Temporal.PlainDate.from(on), { largestUnit: 'years' })
      expect(ageAt(birth, on)).toEqual({ years, exact: true })
    }),
    { numRuns: 2000 },
  )
  for (const [on, years] of [
    ['2001-02-28', 0],
    ['2001-03-01', 1],
    ['2004-02-28', 3],
    ['2004-02-29', 4],
  ] as const) {
    expect(ageAt(parseBirthDate('2000-02-29') as never, day(on)).years).toBe(years)
  }
})
