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

/** Reads a moment; null when it is neither a day nor a time with an offset (a time without one is never guessed). A second 60 is one only at midnight UTC. */
export function parseMoment(text: string): Moment | null {
  const bare = parseDay(text)
  if (bare !== null) return { text, on: bare, order: Temporal.Instant.from(`${text}T00:00Z`).epochMilliseconds }
  const match = WITH_OFFSET.exec(text)
  const on = match?.[1] === undefined ? null : parseDay(match[1])
  if (on === null) return null
  try {
    const instant = Temporal.Instant.from(text)
    // The calendar library takes any second 60 for the 59th; leap seconds end a day of UTC (ITU-R TF.460-6).
    if (match?.[3] === '60' && !LAST_SECOND_OF_UTC.test(instant.toString())) return null
    return { text, on, order: instant.epochMilliseconds }
  } catch {
    return null
  }
}
