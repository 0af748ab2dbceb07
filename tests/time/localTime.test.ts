import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { expect, test } from 'vitest'
import { addDays, day, offsetsAt, timeZoneNamed } from '../../lib/time/index.ts'

// The clocks of these zones: IANA Time Zone Database, https://www.iana.org/time-zones.
test.each([
  ['2026-03-29T01:59', 'Europe/Berlin', ['+01:00']],
  ['2026-03-29T02:00', 'Europe/Berlin', []],
  ['2026-03-29T02:59:59.999', 'Europe/Berlin', []],
  ['2026-03-29T03:00', 'Europe/Berlin', ['+02:00']],
  ['2026-10-25T01:59', 'Europe/Berlin', ['+02:00']],
  ['2026-10-25T02:00', 'Europe/Berlin', ['+02:00', '+01:00']],
  ['2026-10-25T02:59', 'Europe/Berlin', ['+02:00', '+01:00']],
  ['2026-10-25T03:00', 'Europe/Berlin', ['+01:00']],
  ['2026-03-08T02:30', 'America/New_York', []],
  ['2026-11-01T01:30', 'America/New_York', ['-04:00', '-05:00']],
  // Half an hour forward and back.
  ['2026-04-05T01:45', 'Australia/Lord_Howe', ['+11:00', '+10:30']],
  ['2026-10-04T02:15', 'Australia/Lord_Howe', []],
  // A day that never was.
  ['2011-12-30T12:00', 'Pacific/Apia', []],
  ['2026-07-01T12:00', 'Asia/Kolkata', ['+05:30']],
  ['2026-07-01T12:00', 'UTC', ['+00:00']],
])('%s in %s: %j', (local, zone, offsets) => {
  expect(offsetsAt(local, zone)).toEqual(offsets)
})

test.each(['2026-02-30T08:00', '2026-01-01T24:00', '2026-01-01T08:60', '2026-01-01T08:00:60', '2026-01-01', '2026-01-01T8:00', ''])(
  '"%s" is no local time',
  (local) => {
    expect(offsetsAt(local, 'Europe/Berlin')).toEqual([])
  },
)

test('a zone has a name, written as the database of zones writes it', () => {
  expect(['Europe/Berlin', 'europe/berlin', 'UTC', 'America/Argentina/Buenos_Aires'].map(timeZoneNamed)).toEqual([
    'Europe/Berlin',
    'Europe/Berlin',
    'UTC',
    'America/Argentina/Buenos_Aires',
  ])
  expect(['', '+01:00', 'Mars', 'Europe', 'Europe/', '01', '__proto__', 'Europe/Berlin ', '-01:00'].map(timeZoneNamed)).toEqual(
    Array.from({ length: 9 }, () => null),
  )
})

test('any instant, shown by the clocks of a zone, is found again among the offsets of what they show', () => {
  const zone = fc.constantFrom('Europe/Berlin', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia', 'Africa/Casablanca')
  fc.assert(
    fc.property(zone, fc.nat(20_000), fc.nat(1439), (name, days, minutes) => {
      const midnight = Temporal.Instant.from(`${addDays(day('1975-01-01'), days)}T00:00Z`)
      const shown = midnight.add({ minutes }).toZonedDateTimeISO(name)
      const local = shown.toPlainDateTime().toString({ smallestUnit: 'minute' })
      const offsets = offsetsAt(local, name)
      expect(offsets).toContain(shown.offset)
      expect(offsets.length).toBeLessThanOrEqual(2)
    }),
  )
})
