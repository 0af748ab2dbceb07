import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { expect, test } from 'vitest'
import { parseDay, parseMoment } from '../../lib/time/index.ts'

const two = (number: number): string => String(number).padStart(2, '0')
const digits = (text: string, most: number): fc.Arbitrary<string> => fc.oneof(fc.integer({ min: 0, max: most }).map(two), fc.constant(text))
const days = fc
  .tuple(
    fc.oneof(fc.integer({ min: 0, max: 9999 }), fc.constantFrom(0, 4, 96, 99, 100, 1600, 1900, 2000, 2024, 2100)),
    digits('00', 13),
    digits('31', 32),
  )
  .map(([year, month, ofMonth]) => `${String(year).padStart(4, '0')}-${month}-${ofMonth}`)
const ends = fc.constantFrom('Z', '+00:00', '-00:00', '+01:00', '-05:30', '+0100', '+14:00', '+23:59', '-23:59', '+24:00', '+01:60', '', 'z', '+1')
const times = fc.tuple(
  digits('24', 25),
  digits('60', 61),
  fc.oneof(digits('60', 61), fc.constantFrom('', '30.5', '59.999999999', '00.1234567891')),
  ends,
)
const moments = fc
  .tuple(days, times)
  .map(([day, [hour, minute, second, end]]) => `${day}T${hour}:${minute}${second === '' ? '' : `:${second}`}${end}`)

/** The calendar library's own answer. There is no year 0000 (FHIR R4, `date`). */
function dayByLibrary(text: string): string | null {
  try {
    return /^(?!0000)\d{4}-\d{2}-\d{2}$/.test(text) ? Temporal.PlainDate.from(text, { overflow: 'reject' }).toString() : null
  } catch {
    return null
  }
}

/** Offsets go to 14 hours (FHIR R4, `dateTime`); a second 60 ends a day of UTC and stands nowhere else (ITU-R TF.460-6). */
function orderByLibrary(text: string): number | null {
  const form = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(:(\d{2})(\.\d{1,9})?)?(?:Z|[+-](\d{2}):?(\d{2}))$/.exec(text)
  if (form === null || dayByLibrary(form[1] ?? '') === null) return null
  const [, , , second, , hours = '0', minutes = '0'] = form
  if (Number(hours) * 60 + Number(minutes) > 14 * 60) return null
  try {
    const instant = Temporal.Instant.from(text)
    return second === '60' && !instant.toString().includes('T23:59:59') ? null : instant.epochMilliseconds
  } catch {
    return null
  }
}

test('a day read by hand is a day of the calendar library, and no other', () => {
  fc.assert(
    fc.property(days, (text) => {
      expect(parseDay(text)).toBe(dayByLibrary(text))
    }),
    { numRuns: 20_000 },
  )
})

test('a moment read by hand is the instant of the calendar library, and no other', () => {
  fc.assert(
    fc.property(moments, (text) => {
      expect(parseMoment(text)?.order ?? null).toBe(orderByLibrary(text))
    }),
    { numRuns: 20_000 },
  )
  fc.assert(
    fc.property(days, (text) => {
      const day = dayByLibrary(text)
      expect(parseMoment(text)?.order ?? null).toBe(day === null ? null : Temporal.Instant.from(`${day}T00:00Z`).epochMilliseconds)
    }),
    { numRuns: 5_000 },
  )
})
