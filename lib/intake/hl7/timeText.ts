// HL7 v2.5.1, 2.A.77: YYYY[MM[DD[HH[MM[SS[.S[S[S[S]]]]]]]]][+/-ZZZZ].
const FORM = /^(\d{4})(\d{2})(\d{2})(?:(\d{2})(\d{2})(?:(\d{2})(\.\d{1,4})?)?)?(?:([+-]\d{2})(\d{2}))?$/

/** The offset from UTC a time names, as +HH:MM; null where it names none. */
export function zoneOf(received: string): string | null {
  const [, , , , , , , , hours, minutes] = FORM.exec(received) ?? []
  return hours === undefined || minutes === undefined ? null : `${hours}:${minutes}`
}

/**
 * A time of HL7 as the same time in ISO 8601, no more exact than it is: a day stays a day. `zone` holds where it names no offset; where there is none
 * either, the text has none. Anything that is no such time, an hour without minutes among them, is kept as received.
 */
export function timeText(received: string, zone: string | null): string {
  const month = /^(\d{4})(\d{2})$/.exec(received)
  if (month !== null) return `${month[1]}-${month[2]}`
  const found = FORM.exec(received)
  if (found === null) return received
  const [, year, monthOfYear, dayOfMonth, hour, minute, second, fraction] = found
  const day = `${year}-${monthOfYear}-${dayOfMonth}`
  if (hour === undefined) return day
  return `${day}T${hour}:${minute}${second === undefined ? '' : `:${second}`}${fraction ?? ''}${zoneOf(received) ?? zone ?? ''}`
}

/** The day of a time, or the month or year where it names no more; anything else as received. */
export function dayText(received: string): string {
  const text = timeText(received, null)
  return FORM.test(received) ? text.slice(0, 10) : text
}
