import type { Problem, RefusedRow } from './reason.ts'
import { problem } from './sentences.ts'
import type { TableKind } from './tableKind.ts'

/** The named texts of a row. Only columns of the header are in it. */
export type RowFields = Readonly<Record<string, string>>

/** One row of a file as received. */
export interface RawRow {
  /** What it tells of. A CSV file has rows of one kind, other formats of several. */
  readonly kind: TableKind
  /** The physical line it begins on; the header of a CSV file is line 1. In a FHIR Bundle: which entry, from 1. */
  readonly line: number
  /** As received, without its line end; JSON on one line and cut where it is very long. */
  readonly text: string
  readonly fields: RowFields
  /** The fields as received, where what is known of the source changed some of them. */
  readonly received?: RowFields
  /** Why it waits by what is known of its source; it is read no further. Null or absent: nothing. */
  readonly doubt?: Problem | null
  /** Why it cannot be read as a row; null for every row that has one field for each column. */
  readonly refusal: RefusedRow | null
}

const BLANK = ' \t\r\n'
const SPACE = 0x20

// By index: a regular expression would take quadratic time on a field of a million blanks.
function withoutBlanksAround(text: string): string {
  if (text.charCodeAt(0) > SPACE && text.charCodeAt(text.length - 1) > SPACE) return text
  let [from, to] = [0, text.length]
  while (from < to && BLANK.includes(text.charAt(from))) from++
  while (to > from && BLANK.includes(text.charAt(to - 1))) to--
  return text.slice(from, to)
}

/** The text of a column without ASCII blanks around; empty where the file has no such column. */
export function field(raw: Pick<RawRow, 'fields'>, column: string): string {
  // Fields are texts; what an object has without them (`constructor`) is none.
  const text: unknown = raw.fields[column]
  return typeof text === 'string' ? withoutBlanksAround(text) : ''
}

/** A name or other free text exactly as received; null where it holds nothing but blanks. */
export function freeText(raw: RawRow, column: string): string | null {
  return field(raw, column) === '' ? null : (raw.fields[column] ?? null)
}

/** The patient a row is about; empty where it names none. Compared exactly. */
export function patientIdOf(raw: RawRow): string {
  return field(raw, 'patient_id')
}

/** What is wrong with the row before any of its columns is understood: its length, U+0000, an empty required column. */
export function rowProblem(raw: RawRow, required: readonly string[]): Problem | null {
  if (raw.refusal !== null) return raw.refusal
  for (const column of Object.keys(raw.fields)) {
    const text = raw.fields[column] ?? ''
    if (text.includes('\u0000')) return problem('bad-character', { column, text })
  }
  const empty = required.find((column) => field(raw, column) === '')
  return empty === undefined ? null : problem('missing-field', { column: empty, text: '' })
}

/** The word of a column, one of `words`; null where it is empty, a problem where it is none of them. */
export function wordOf<Word extends string>(raw: RawRow, column: string, words: readonly Word[]): Word | null | Problem {
  const text = field(raw, column)
  if (text === '') return null
  return words.find((word) => word === text) ?? problem('bad-word', { column, text, detail: words.join(', ') })
}

/** True for a problem, false for whatever was read. */
export function isProblem(read: unknown): read is Problem {
  return typeof read === 'object' && read !== null && 'outcome' in read && 'sentence' in read
}
