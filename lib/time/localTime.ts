import { Temporal } from 'temporal-polyfill'
import { parseDay } from './day.ts'

// An offset or a zone that a library made up for itself is no place: a place has a name with its history of clocks.
const NAMED = /^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/

/** The name of an IANA time zone as the database of zones writes it (`europe/berlin` is `Europe/Berlin`); null where no zone has it. */
export function timeZoneNamed(text: string): string | null {
  if (!NAMED.test(text)) return null
  try {
    return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(text).timeZoneId
  } catch {
    return null
  }
}

const DAYS_KEPT = 20_000
const offsetOfDay = new Map<string, string | null>()

/** The offset a zone keeps all day; null where its clocks change that day, and for what is no day. Remembered: a file names the same days. */
function offsetAllDay(day: string, zone: string): string | null {
  const key = `${zone} ${day}`
  const known = offsetOfDay.get(key)
  if (known !== undefined) return known
  if (parseDay(day) === null) return null
  const begins = Temporal.PlainDate.from(day).toZonedDateTime(zone)
  const changes = begins.subtract({ nanoseconds: 1 }).getTimeZoneTransition('next')
  const ends = begins.add({ days: 1 })
  const isKept = begins.hoursInDay === 24 && (changes === null || Temporal.ZonedDateTime.compare(changes, ends) >= 0)
  if (offsetOfDay.size >= DAYS_KEPT) offsetOfDay.clear()
  offsetOfDay.set(key, isKept ? begins.offset : null)
  return isKept ? begins.offset : null
}

const TIME = /^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?$/

/**
 * The offsets from UTC (`+02:00`) at which a zone's clocks show a local time `YYYY-MM-DDTHH:MM[:SS[.s]]`: one; none where the clocks were put forward
 * over it, or where it is no time; two where they were put back over it. Throws RangeError for a zone that is none.
 */
export function offsetsAt(local: string, zone: string): readonly string[] {
  if (!TIME.test(local)) return []
  const allDay = offsetAllDay(local.slice(0, 10), zone)
  if (allDay !== null) return [allDay]
  if (parseDay(local.slice(0, 10)) === null) return []
  const time = Temporal.PlainDateTime.from(local)
  const shown = (['earlier', 'later'] as const).map((disambiguation) => time.toZonedDateTime(zone, { disambiguation }))
  return [...new Set(shown.filter((moment) => moment.toPlainDateTime().equals(time)).map(({ offset }) => offset))]
}
