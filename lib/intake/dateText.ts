import { type Day, type Moment, parseDay, parseMoment } from '../time/index.ts'
import type { Problem } from './reason.ts'
import { remembered } from './remembered.ts'
import { field, type RawRow } from './row.ts'
import { problem } from './sentences.ts'

function fault(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return 'the calendar has no such day'
  if (/^\d{1,2}[-/.]\d{1,2}[-/.]\d{2}$|^\d{2}-\d{2}-\d{2}/.test(text)) return 'a year needs four digits, as in 2026-01-31'
  if (/^\d{4}-\d{2}-\d{2}[T ][\d:.]+$/.test(text)) return 'a time needs its offset from UTC, as in 2026-01-31T08:00+01:00'
  return 'it needs a day written YYYY-MM-DD, or where a time is taken a time with its offset from UTC'
}

// The rows of one sample are of one time, and reported at one.
const momentOf = remembered((text) => parseMoment(text))

/** The moment in a column; null where it is empty, a problem where it is no day and no time with an offset. */
export function momentIn(raw: RawRow, column: string): Moment | null | Problem {
  const text = field(raw, column)
  return text === '' ? null : (momentOf(text, '', '') ?? problem('bad-date', { column, text, detail: fault(text) }))
}

/** The day in a column; null where it is empty, a problem where it is no day. */
export function dayIn(raw: RawRow, column: string): Day | null | Problem {
  const text = field(raw, column)
  return text === '' ? null : (parseDay(text) ?? problem('bad-date', { column, text, detail: fault(text) }))
}
