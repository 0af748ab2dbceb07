import { offsetsAt, parseDay } from '../../time/index.ts'
import type { SourceProfile } from './knowledge.ts'

/** A date or time as its source means it: in ISO 8601; what is wrong with it; the day of a time that came twice; or left as it is. */
export type WrittenDate = { readonly text: string } | { readonly fault: string } | { readonly twiceOn: string } | 'not-concerned'

const THREE_NUMBERS = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4})(?:(?:T|[ \t]+)(\d{1,2}):(\d{2})(:\d{2}(?:\.\d{1,9})?)?[ ]?(Z|[+-]\d{2}:?\d{2})?)?$/
const LOCAL = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?)$/

const two = (digits: string): string => digits.padStart(2, '0')

const ORDER = { 'day-first': 'day, month, year', 'month-first': 'month, day, year' } as const

/** The three numbers in the profile's order, never in another one. */
function inOrder(text: string, dayOrder: SourceProfile['dayOrder']): WrittenDate {
  const found = dayOrder === 'year-first' ? null : THREE_NUMBERS.exec(text)
  if (found === null || dayOrder === 'year-first') return 'not-concerned'
  const [, first = '', , second = '', year = '', hour, minute = '', seconds = '', offset = ''] = found
  const [day, month] = dayOrder === 'day-first' ? [first, second] : [second, first]
  const iso = `${year}-${two(month)}-${two(day)}`
  if (parseDay(iso) === null) return { fault: `its source writes ${ORDER[dayOrder]}, and the calendar has no such day` }
  return { text: hour === undefined ? iso : `${iso}T${two(hour)}:${minute}${seconds}${offset}` }
}

/** A time without an offset gets the one its zone's clocks had that day. */
function inZone(text: string, zone: string | null): WrittenDate {
  const [, day = '', time = ''] = LOCAL.exec(text) ?? []
  if (zone === null || time === '') return 'not-concerned'
  const [offset, another] = offsetsAt(`${day}T${time}`, zone)
  if (offset === undefined) return { fault: parseDay(day) === null ? 'the calendar has no such day' : `the clocks in ${zone} never showed that time` }
  return another === undefined ? { text: `${day}T${time}${offset}` } : { twiceOn: day }
}

/**
 * Reads a date or time with what its source leaves unsaid: the order of day and month where three numbers do not begin with the year, and the zone of
 * a time without an offset. An ISO day or a time with its offset is never touched; a year of two digits is never read.
 */
export function writtenDate(text: string, { dayOrder, timeZone }: Pick<SourceProfile, 'dayOrder' | 'timeZone'>): WrittenDate {
  const ordered = inOrder(text, dayOrder)
  if (typeof ordered === 'object' && 'fault' in ordered) return ordered
  const told = typeof ordered === 'object' && 'text' in ordered ? ordered.text : text
  const zoned = inZone(told, timeZone)
  if (zoned !== 'not-concerned' || ordered === 'not-concerned') return zoned
  return /T.*\d$/.test(told) && !/[+-]\d{2}:?\d{2}$/.test(told)
    ? { fault: 'a time needs its offset from UTC, and nothing says the zone of its source' }
    : ordered
}
