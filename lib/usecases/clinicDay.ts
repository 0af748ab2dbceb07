import { Temporal } from 'temporal-polyfill'
import { type Day, day } from '../time/index.ts'

function clinicMoment(at: Date): Temporal.ZonedDateTime {
  const zone = process.env.LOWMARK_TIME_ZONE ?? Temporal.Now.timeZoneId()
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone)
}

/**
 * The clinic's calendar day at an instant, in the zone LOWMARK_TIME_ZONE names (IANA), else the machine's own.
 * Throws RangeError for a zone that does not exist.
 */
export function clinicDay(at: Date): Day {
  return day(clinicMoment(at).toPlainDate().toString())
}

/** What the clinic's clocks show at an instant, `14:35`, in the same zone; minutes that have begun are not rounded up. */
export function clinicTime(at: Date): string {
  return clinicMoment(at).toPlainTime().toString({ smallestUnit: 'minute' })
}
