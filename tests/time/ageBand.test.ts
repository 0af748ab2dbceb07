import { expect, test } from 'vitest'
import { ageBand, type BirthDate, day, parseBirthDate } from '../../lib/time/index.ts'

const born = (text: string): BirthDate => parseBirthDate(text) as BirthDate

test.each([
  ['1946-12-31', '2026-01-01', '80 to 84'],
  ['1942-01-01', '2026-12-31', '80 to 84'],
  ['1941-12-31', '2026-01-01', '85 to 89'],
  ['1937-06-30', '2026-01-01', '85 to 89'],
  ['1936-12-31', '2026-01-01', '90 and over'],
  ['1911', '2026-07-01', '90 and over'],
  ['1976-02', '2026-07-01', '50 to 54'],
  ['2026-07-01', '2026-07-01', '0 to 4'],
] as const)('born %s, on %s: %s', (birth, on, band) => {
  expect(ageBand(born(birth), day(on))).toBe(band)
})

test('the day it changes on tells no birthday: it is the first of January', () => {
  const before = ageBand(born('1946-07-19'), day('2025-12-31'))
  const all = ['2026-01-01', '2026-07-18', '2026-07-19', '2026-07-20', '2026-12-31'].map((on) => ageBand(born('1946-07-19'), day(on)))
  expect([before, ...new Set(all)]).toEqual(['75 to 79', '80 to 84'])
})
