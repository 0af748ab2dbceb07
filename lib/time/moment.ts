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

const WITH_OFFSET = /^(\d{4}-\d{2}-\d{2})T\d{2}:\d{2}(:\d{2}(\.\d{1,9})?)?(Z|[+-]\d{2}:?\d{2})$/

/** Reads a moment; null when it is neither a day nor a time with an offset (a time without one is never guessed). */
export function parseMoment(text: string): Moment | null {
  const bare = parseDay(text)
  if (bare !== null) return { text, on: bare, order: Temporal.Instant.from(`${text}T00:00Z`).epochMilliseconds }
  const match = WITH_OFFSET.exec(text)
  const on = match?.[1] === undefined ? null : parseDay(match[1])
  if (on === null) return null
  try {
    return { text, on, order: Temporal.Instant.from(text).epochMilliseconds }
  } catch {
    return null
  }
}
