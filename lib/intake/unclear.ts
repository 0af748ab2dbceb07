import type { HeldReason, Problem } from './reason.ts'
import { field, type RawRow, type RowFields } from './row.ts'
import { problem } from './sentences.ts'

interface Why {
  readonly reason: HeldReason
  readonly column: string
  readonly detail: string
}

const value = (detail: string): Why => ({ reason: 'value-unreadable', column: 'value', detail })
const code = (detail: string): Why => ({ reason: 'unknown-code', column: 'code', detail })
const unknownEscape = (column: string): Why => ({ reason: 'escape-unknown', column, detail: '' })

/** What a reader of a format can find unclear in a row whose fields have no place to show it, in the order of telling. */
const UNCLEAR = {
  patient: { reason: 'patient-unclear', column: 'patient_id', detail: '' },
  'code-escape': unknownEscape('code'),
  'code-system': code('is not marked as LOINC (coding system LN)'),
  'two-codes': code('names two different LOINC codes'),
  status: { reason: 'status-unclear', column: 'observation_status', detail: '' },
  'value-escape': unknownEscape('value'),
  'several-values': value('to be one value; several stand in one OBX'),
  'value-components': value('to be one text; separators stand in it'),
  'value-type': value('a value type (OBX-2) of NM, SN, ST, TX, FT, CE or CWE'),
  'no-plain-number': value('a plain number, since OBX-2 is NM'),
  'no-single-number': value('one number with at most <, <=, > or >= before it, since OBX-2 is SN'),
  'no-words': value('words beside its code (OBX-5.2), and no number among codes'),
  'repeated-code': value('to be the only value of its code and status below its OBR; several stand there, and nothing joins them'),
  'unit-escape': unknownEscape('unit'),
} as const satisfies Readonly<Record<string, Why>>
export type Unclear = keyof typeof UNCLEAR

export const UNCLEAR_WORDS = Object.keys(UNCLEAR) as readonly Unclear[]

/** The words of a row in the order of telling. */
const wordsOf = (fields: RowFields): readonly string[] => (fields.unclear ?? '').split(' ').filter((word) => word !== '')

/** The doubts of a row as its field `unclear`: all of them, so that settling one does not lose another. None: no such field. */
export function unclearField(found: readonly (Unclear | null)[]): { readonly unclear?: string } {
  const words = found.filter((word) => word !== null)
  return words.length === 0 ? {} : { unclear: words.join(' ') }
}

const CODE_DOUBTS: readonly string[] = ['code-escape', 'code-system', 'two-codes'] satisfies readonly Unclear[]

const DOUBTS_ABOUT: Readonly<Record<string, readonly string[]>> = {
  code: CODE_DOUBTS,
  unit: ['unit-escape'] satisfies readonly Unclear[],
  patient_id: ['patient'] satisfies readonly Unclear[],
}

/** The fields of a row without the doubts about its code: a person said what that text stands for. */
export function withoutCodeDoubt(fields: RowFields): RowFields {
  return withoutDoubtAbout('code', fields)
}

/** The fields of a row without the doubts about one of its columns: a person said what it means. */
export function withoutDoubtAbout(column: string, fields: RowFields): RowFields {
  const words = wordsOf(fields).filter((word) => !DOUBTS_ABOUT[column]?.includes(word))
  const { unclear: _, ...others } = fields
  return words.length === 0 ? others : { ...others, unclear: words.join(' ') }
}

/**
 * Why a row waits that its reader found unclear (`unclear` among its fields, so that it is still so when it is read again), or that the profile of its
 * source leaves in doubt; null for any other.
 */
export function unclearProblem(raw: RawRow): Problem | null {
  const [first] = wordsOf(raw.fields)
  const word = UNCLEAR_WORDS.find((known) => known === first)
  if (word === undefined) return raw.doubt ?? null
  const { reason, column, detail } = UNCLEAR[word]
  return problem(reason, { column, text: field(raw, column), detail })
}
