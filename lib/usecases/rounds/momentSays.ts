import { clinicDay, clinicTime } from '../clinicDay.ts'

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const

/** A moment (UTC, ISO 8601) by the clinic's calendar and clocks: `Monday 2026-11-23 08:10`. */
export function momentSays(at: string): string {
  const instant = new Date(at)
  const on = clinicDay(instant)
  return `${WEEKDAYS[new Date(`${on}T00:00:00Z`).getUTCDay()]} ${on} ${clinicTime(instant)}`
}
