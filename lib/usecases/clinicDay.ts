import { Temporal } from 'temporal-polyfill'
import { type Day, day } from '../time/index.ts'

/**
 * The clinic's calendar day at an instant, in the zone LOWMARK_TIME_ZONE names (IANA), else the machine's own.
 * Throws RangeError for a zone that does not exist.
 */
export function clinicDay(at: Date): Day {
  const zone = process.env.LOWMARK_TIME_ZONE ?? Temporal.Now.timeZoneId()
  return day(Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone).toPlainDate().toString())
}
