import { analyteUnit } from '../analyteUnit.ts'
import { limitsOf } from '../hl7/limitsOf.ts'
import { analyteOfCode } from '../loinc.ts'
import type { Problem, RefusedRow } from '../reason.ts'
import { field, type RawRow } from '../row.ts'
import { problem } from '../sentences.ts'
import { commaNumber } from './commaNumber.ts'
import type { SourceProfile } from './knowledge.ts'
import { writtenDate } from './writtenDate.ts'

/** What a profile makes of a row: the texts that change, and what it shows to be in doubt or impossible. */
export interface Written {
  readonly changes: Readonly<Record<string, string>>
  readonly doubt: Problem | null
  readonly refusal: RefusedRow | null
}

const NUMBERS: Readonly<Record<RawRow['kind'], readonly string[]>> = {
  patients: ['weight_kg'],
  course: ['line', 'lytic_lesions', 'focal_lesions_5mm', 'new_lesions', 'growth_percent', 'plasma_cells_percent'],
  results: ['value', 'reference_low', 'reference_high'],
}

const DATES: Readonly<Record<RawRow['kind'], readonly string[]>> = {
  patients: ['birth_date', 'status_on'],
  course: ['on'],
  results: ['collected_at', 'reported_at', 'birth_date'],
}

const COMMA_NEEDED = 'a comma as its decimal sign, as its source writes: a point may be a slip or mark thousands'

// What is no measurement is no number either: the words of an immunofixation, and the value a withdrawal takes back.
function hasNumbers(raw: RawRow): boolean {
  if (raw.kind !== 'results') return true
  const analyte = analyteOfCode(field(raw, 'code'))
  return (analyte === null || analyteUnit(analyte) !== null) && !['cancelled', 'entered-in-error'].includes(field(raw, 'status'))
}

// A number of JSON has a point by the format itself, whatever the source writes elsewhere.
const isJson = ({ text }: RawRow): boolean => text.startsWith('{"')

/** An interval of HL7 that could not be read for its commas. */
function intervalRead(raw: RawRow): Readonly<Record<string, string>> {
  const ends = field(raw, 'reference_interval').split(/ ?(-) ?/)
  const read = ends.map((end) => (end === '-' ? { text: end } : commaNumber(end)))
  if (read.some((end) => typeof end === 'string')) return {}
  return { ...limitsOf(read.map((end) => (typeof end === 'string' ? '' : end.text)).join('')) }
}

function numbersOf(raw: RawRow): Omit<Written, 'refusal'> {
  if (isJson(raw) || !hasNumbers(raw)) return { changes: {}, doubt: null }
  const isInterval = field(raw, 'reference_interval') !== ''
  const changes: Record<string, string> = isInterval ? { ...intervalRead(raw) } : {}
  let doubt: Problem | null = null
  for (const column of NUMBERS[raw.kind].filter((name) => !isInterval || name === 'value')) {
    const text = field(raw, column)
    const read = commaNumber(text)
    if (typeof read === 'object' && read.text !== text) changes[column] = read.text
    const reason = column.startsWith('reference') ? 'limit-unreadable' : 'value-unreadable'
    if (read === 'in-doubt') doubt ??= problem(reason, { column, text, detail: COMMA_NEEDED })
  }
  return { changes, doubt }
}

function datesOf(raw: RawRow, profile: SourceProfile): Written {
  const changes: Record<string, string> = {}
  let [doubt, refusal]: [Problem | null, RefusedRow | null] = [null, null]
  for (const column of DATES[raw.kind]) {
    const text = field(raw, column)
    const read = text === '' ? 'not-concerned' : writtenDate(text, profile)
    if (read === 'not-concerned') continue
    if ('text' in read) changes[column] = read.text
    // That a result names a birth date nobody can read holds it, as without a profile.
    else if ('fault' in read) {
      if (raw.kind !== 'results' || column !== 'birth_date') refusal ??= problem('bad-date', { column, text, detail: read.fault }) as RefusedRow
    } else {
      changes[column] = read.twiceOn
      doubt ??= problem('time-twice', { column, text, detail: profile.timeZone ?? '' })
    }
  }
  return { changes, doubt, refusal }
}

/** The unit of a code, as received or by what it stands for, where the row names none. */
function unitOf(raw: RawRow, codeReceived: string, { units }: SourceProfile): Readonly<Record<string, string>> {
  if (raw.kind !== 'results' || field(raw, 'unit') !== '') return {}
  const code = [codeReceived, field(raw, 'code')].find((one) => Object.hasOwn(units, one))
  const unit = code === undefined ? undefined : units[code]
  return unit === undefined ? {} : { unit }
}

/** Reads a row, its mappings applied, by its source's profile. What the row says itself is never overruled, and what stays uncertain is never read. */
export function asWritten(raw: RawRow, codeReceived: string, profile: SourceProfile): Written {
  const numbers = profile.decimalSign === 'comma' ? numbersOf(raw) : { changes: {}, doubt: null }
  const dates = datesOf(raw, profile)
  const changes = { ...numbers.changes, ...dates.changes, ...unitOf(raw, codeReceived, profile) }
  return { changes, doubt: dates.doubt ?? numbers.doubt, refusal: dates.refusal }
}
