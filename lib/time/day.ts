import { Temporal } from 'temporal-polyfill'

declare const dayMark: unique symbol

/** A calendar day, ISO 8601 `YYYY-MM-DD`, without time or zone. Days compare with `<` and `>`. */
export type Day = string & { readonly [dayMark]: true }

// There is no year 0000 in FHIR R4 (the form of `date`); where it stands, a machine wrote it.
const ISO_DAY = /^(?!0000)\d{4}-\d{2}-\d{2}$/

const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

/** 0 for a month there is not. Gregorian throughout. By hand: a file of a million rows has two days in each, and the calendar library takes its time. */
function daysInMonth(year: number, month: number): number {
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0)
  return month === 2 && isLeap ? 29 : (DAYS_IN_MONTH[month - 1] ?? 0)
}

/** Reads an ISO day. Returns null for anything else, 30 February, the year 0000 and two-digit years included. */
export function parseDay(text: string): Day | null {
  if (!ISO_DAY.test(text)) return null
  const [year, month, ofMonth] = [Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8))]
  return ofMonth >= 1 && ofMonth <= daysInMonth(year, month) ? (text as Day) : null
}

/** The day `text` names. Throws RangeError where it names none. */
export function day(text: string): Day {
  const parsed = parseDay(text)
  if (parsed === null) throw new RangeError(`"${text}" is not a day written YYYY-MM-DD`)
  return parsed
}

const MS_PER_DAY = 86_400_000

// Date.UTC on numbers is exact for whole days and forty times faster than the calendar library; it never reads a clock.
function dayNumber(d: Day): number {
  return Date.UTC(Number(d.slice(0, 4)), Number(d.slice(5, 7)) - 1, Number(d.slice(8, 10))) / MS_PER_DAY
}

/** Whole days from `from` to `to`; negative when `to` is earlier. */
export function daysBetween(from: Day, to: Day): number {
  return dayNumber(to) - dayNumber(from)
}

/** Date.UTC takes a year below 100 for one of the last century, and a year above 9999 is written with a sign. */
const FIRST_PLAIN = Date.UTC(100, 0, 1) / MS_PER_DAY
const LAST_PLAIN = Date.UTC(9999, 11, 31) / MS_PER_DAY

/** The day `count` days after `d` (before it when negative). */
export function addDays(d: Day, count: number): Day {
  const number = d < '0100' ? Number.NaN : dayNumber(d) + count
  if (number >= FIRST_PLAIN && number <= LAST_PLAIN) return new Date(number * MS_PER_DAY).toISOString().slice(0, 10) as Day
  return Temporal.PlainDate.from(d).add({ days: count }).toString() as Day
}

/** The day `count` calendar months after `d`; the last day of the month where that month is shorter. */
export function addMonths(d: Day, count: number): Day {
  // By hand like the days of a month: every due day of a plan in months asks for it.
  const months = Number(d.slice(0, 4)) * 12 + Number(d.slice(5, 7)) - 1 + count
  const [year, month] = [Math.floor(months / 12), (months % 12) + 1]
  if (Number.isInteger(count) && year >= 1 && year <= 9999) {
    const ofMonth = Math.min(Number(d.slice(8, 10)), daysInMonth(year, month))
    return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(ofMonth).padStart(2, '0')}` as Day
  }
  return Temporal.PlainDate.from(d).add({ months: count }, { overflow: 'constrain' }).toString() as Day
}

/** -1, 0 or 1, for sorting. */
export function compareDays(a: Day, b: Day): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** The later of two days. */
export function laterDay(a: Day, b: Day): Day {
  return a < b ? b : a
}

/** The earlier of two days. */
export function earlierDay(a: Day, b: Day): Day {
  return a < b ? a : b
}
