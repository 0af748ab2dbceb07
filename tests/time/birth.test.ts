import { expect, test } from 'vitest'
import { ageAt, type BirthDate, day, earliestBirthDay, parseBirthDate } from '../../lib/time/index.ts'

const born = (text: string): BirthDate => {
  const read = parseBirthDate(text)
  if (read === null) throw new Error(`"${text}" is no date of birth`)
  return read
}

test.each([
  ['1960', '1960-01-01'],
  ['1960-07', '1960-07-01'],
  ['1960-07-09', '1960-07-09'],
])('%s is a date of birth, %s at the earliest', (text, earliest) => {
  expect(earliestBirthDay(born(text))).toBe(earliest)
})

test.each(['0000', '0000-01-01', '60', '1960-13', '1960-02-30', '1960-7', '', 'unknown'])('"%s" is none', (text) => {
  expect(parseBirthDate(text)).toBe(null)
})

test.each([
  ['1960-07-09', '2020-07-08', 59, true],
  ['1960-07-09', '2020-07-09', 60, true],
  ['1960', '2020-01-01', 60, false],
  ['1960-07', '2020-06-30', 59, false],
])('born %s is on %s %i years old', (birth, on, years, exact) => {
  expect(ageAt(born(birth), day(on))).toEqual({ years, exact })
})
