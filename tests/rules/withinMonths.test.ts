import fc from 'fast-check'
import { expect, test } from 'vitest'
import { withinMonths } from '../../lib/rules/withinMonths.ts'
import { addDays, addMonths, day } from '../../lib/time/index.ts'

const someDay = fc.integer({ min: 0, max: 4000 }).map((days) => addDays(day('2019-01-01'), days))

test('it says what the calendar says, near the limit and far from it', () => {
  fc.assert(
    fc.property(
      someDay,
      fc.integer({ min: 1, max: 24 }),
      fc.oneof(fc.integer({ min: -6, max: 6 }), fc.integer({ min: -400, max: 400 })),
      (later, months, off) => {
        const limit = addMonths(later, -months)
        const earlier = addDays(limit, off)
        expect(withinMonths(earlier, later, months)).toBe(earlier >= limit)
      },
    ),
    { numRuns: 1000 },
  )
})

test.each([
  ['2024-08-31', '2025-02-28', 6, true],
  ['2024-08-27', '2025-02-28', 6, false],
  ['2024-02-29', '2025-02-28', 12, true],
  ['2023-02-28', '2024-02-29', 12, true],
  ['2023-02-27', '2024-02-29', 12, false],
] as const)('%s to %s, %d months: %s', (earlier, later, months, within) => {
  expect(withinMonths(day(earlier), day(later), months)).toBe(within)
})
