import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyteOfCode, profileDifferences, profileExamples, profileSayings, readProfile, SAYS_NOTHING } from '../../../lib/intake/index.ts'
import { profile } from './known.ts'

const read = (given: unknown) => readProfile(given, analyteOfCode)

/** Which field is wrong, and how. */
function wrong(given: unknown): Readonly<Record<string, string>> {
  const answer = read(given)
  if (answer.ok) throw new Error('it was read')
  return Object.fromEntries(answer.problems.map(({ field, says }) => [field, says]))
}

describe('the file of a profile', () => {
  test('says what it says, and nothing is assumed of what it leaves out', () => {
    expect(read({ source: ' North ' })).toEqual({ ok: true, value: { source: 'North', profile: SAYS_NOTHING } })
    const all = { units: { '718-7': 'g/dL' }, decimalSign: 'comma', dayOrder: 'day-first', timeZone: 'europe/berlin', addsPatients: true }
    expect(read({ source: 'North', ...all })).toEqual({
      ok: true,
      value: { source: 'North', profile: { ...all, timeZone: 'Europe/Berlin' } },
    })
  })

  test.each([
    [null, 'file', 'no profile'],
    [[], 'file', 'no profile'],
    [{}, 'source', 'is missing'],
    [{ source: ' ' }, 'source', 'is missing'],
    [{ source: 'x'.repeat(101) }, 'source', 'more than 100'],
    [{ source: 'a\u0000b' }, 'source', 'control character'],
    [{ source: 'N', decimalsign: 'comma' }, 'decimalsign', 'nothing a profile says'],
    [{ source: 'N', decimalSign: ',' }, 'decimalSign', 'neither point nor comma'],
    [{ source: 'N', dayOrder: 'DMY' }, 'dayOrder', 'none of'],
    [{ source: 'N', timeZone: 'Mars/Base' }, 'timeZone', 'no IANA time zone'],
    [{ source: 'N', timeZone: '+01:00' }, 'timeZone', 'no IANA time zone'],
    [{ source: 'N', timeZone: '' }, 'timeZone', 'no IANA time zone'],
    [{ source: 'N', timeZone: 1 }, 'timeZone', 'no name of a time zone'],
    [{ source: 'N', addsPatients: 'yes' }, 'addsPatients', 'neither true nor false'],
    [{ source: 'N', units: [] }, 'units', 'no list of codes'],
    [{ source: 'N', units: { '718-7': '' } }, 'units.718-7', 'needs a unit'],
    [{ source: 'N', units: { '718-7': 7 } }, 'units.718-7', 'needs a unit'],
    [{ source: 'N', units: { '718-7': 'mg' } }, 'units.718-7', 'converts to g/L'],
    [{ source: 'N', units: { '718-7': 'grams a litre' } }, 'units.718-7', 'no UCUM unit'],
    [{ source: 'N', units: { '2464-6': 'g/L' } }, 'units.2464-6', 'names nothing that is followed'],
    [{ source: 'N', units: { constructor: 'g/L' } }, 'units.constructor', 'names nothing'],
    [{ source: 'N', units: { '25700-6': 'g/L' } }, 'units.25700-6', 'has no unit'],
  ])('%j: %s', (given, field, says) => {
    expect(wrong(given)).toEqual({ [field]: expect.stringContaining(says) })
  })

  test('everything that is wrong is told at once', () => {
    expect(Object.keys(wrong({ decimalSign: 1, dayOrder: 2, more: 3 })).toSorted()).toEqual(['dayOrder', 'decimalSign', 'more', 'source'])
    const units = Object.fromEntries(Array.from({ length: 201 }, (_, at) => [`c${at}`, 'g/L']))
    expect(wrong({ source: 'N', units })).toEqual({ units: 'has more than 200 codes' })
  })

  test('anything at all is read or refused, and never crashes', () => {
    fc.assert(fc.property(fc.anything(), (given) => typeof read(given).ok === 'boolean'))
  })
})

describe('a profile in words', () => {
  test('says each thing, and of two profiles what differs', () => {
    const other = profile({ decimalSign: 'comma', units: { '718-7': 'g/dL', '2160-0': 'mg/dL' } })
    expect(profileSayings(other).map(({ says }) => says)).toEqual([
      'a comma',
      'year, month, day (ISO 8601 only)',
      'not known: such a time is refused',
      'no',
      'mg/dL',
      'g/dL',
    ])
    expect(profileDifferences(other, other)).toEqual([])
    expect(profileDifferences(SAYS_NOTHING, other).map(({ field, was, becomes }) => [field, was, becomes])).toEqual([
      ['decimalSign', 'a point', 'a comma'],
      ['units.2160-0', 'none', 'mg/dL'],
      ['units.718-7', 'none', 'g/dL'],
    ])
    expect(profileDifferences(other, SAYS_NOTHING)).toContainEqual(expect.objectContaining({ field: 'units.718-7', becomes: 'none' }))
  })

  test('its examples are what the reading of rows makes of them', () => {
    const of = (changes: Parameters<typeof profile>[0]) => Object.fromEntries(profileExamples(profile(changes)).map(({ text, says }) => [text, says]))
    expect(of({})).toEqual({
      '12,5': 'held',
      '12.5': 'read as 12.5',
      '1.234,5': 'held',
      '1.234': 'read as 1.234',
      '03/02/2026': 'refused',
      '13.02.2026': 'refused',
      '2026-03-29 08:00': 'refused',
      '2026-10-25 02:30': 'refused',
    })
    expect(of({ decimalSign: 'comma', dayOrder: 'day-first', timeZone: 'Europe/Berlin' })).toEqual({
      '12,5': 'read as 12.5',
      '12.5': 'held',
      '1.234,5': 'read as 1234.5',
      '1.234': 'held',
      '03/02/2026': 'read as 3 February 2026',
      '13.02.2026': 'read as 13 February 2026',
      '2026-03-29 08:00': 'read as 2026-03-29 08:00+02:00',
      '2026-10-25 02:30': 'held: it came twice that night',
    })
    expect(of({ dayOrder: 'month-first', timeZone: 'UTC' })).toMatchObject({
      '03/02/2026': 'read as 2 March 2026',
      '13.02.2026': 'refused',
      '2026-10-25 02:30': 'read as 2026-10-25 02:30+00:00',
    })
  })
})
