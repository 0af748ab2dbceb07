import { Temporal } from 'temporal-polyfill'
import { type Day, parseDay } from './day.ts'

/** When something was collected or reported: an ISO day, or an ISO date and time with its offset. */
export interface Moment {
  /** As written. */
  readonly text: string
  /** The calendar day at the place where it was written. */
  readonly on: Day
  /** Sorts moments: milliseconds since 1970 UTC; a bare day counts from its first instant, UTC. */
  readonly order: number
}

// Offsets as in FHIR R4 (the form of `dateTime`): at most 14 hours, for no place on earth has more.
const WITH_OFFSET = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(:(\d{2})(\.\d{1,9})?)?(Z|[+-](?:(?:0\d|1[0-3]):?[0-5]\d|14:?00))$/
const LAST_SECOND_OF_UTC = /T23:59:59/

const MS_PER_MINUTE = 60_000
/** Date.UTC takes a year below 100 for one of the last century. */
const FIRST_PLAIN_YEAR = '0100'
const PLAIN_TIME = /^.{11}([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?(?:Z|([+-])([01]\d|2[0-3]):([0-5]\d))$/

const startOf = (on: Day): number => Date.UTC(Number(on.slice(0, 4)), Number(on.slice(5, 7)) - 1, Number(on.slice(8)))

/** The instant of a time as laboratories write it, on a day that is one; null for any other way, which the calendar library may still read. */
function plainOrder(text: string, on: Day): number | null {
  const time = on < FIRST_PLAIN_YEAR ? null : PLAIN_TIME.exec(text)
  if (time === null) return null
  const [, hour, minute, second = '0', sign = '+', offsetHour = '0', offsetMinute = '0'] = time
  const offset = Number(offsetHour) * 60 + Number(offsetMinute)
  const minutes = Number(hour) * 60 + Number(minute) - (sign === '-' ? -offset : offset)
  return startOf(on) + minutes * MS_PER_MINUTE + Number(second) * 1000
}

/** Reads a moment; null when it is neither a day nor a time with an offset (a time without one is never guessed). A second 60 is one only at midnight UTC. */
export function parseMoment(text: string): Moment | null {
  const bare = parseDay(text)
  if (bare !== null && bare >= FIRST_PLAIN_YEAR) return { text, on: bare, order: startOf(bare) }
  if (bare !== null) return { text, on: bare, order: Temporal.Instant.from(`${text}T00:00Z`).epochMilliseconds }
  const match = WITH_OFFSET.exec(text)
  const on = match?.[1] === undefined ? null : parseDay(match[1])
  if (on === null) return null
  const order = plainOrder(text, on)
  if (order !== null) return { text, on, order }
  try {
    const instant = Temporal.Instant.from(text)
    // The calendar library takes any second 60 for the 59th; leap seconds end a day of UTC (ITU-R TF.460-6).
    if (match?.[3] === '60' && !LAST_SECOND_OF_UTC.test(instant.toString())) return null
    return { text, on, order: instant.epochMilliseconds }
  } catch {
    return null
  }
}
