import type { Day } from '../time/index.ts'

/** Why a row waits for a person. */
export const HELD_REASONS = [
  'unknown-code',
  'unknown-patient',
  'unit-missing',
  'unit-unknown',
  'unit-dimension',
  'birth-date-differs',
  'sex-differs',
  'decimal-comma',
  'thousands-separator',
  'value-unreadable',
  'limit-unreadable',
  'out-of-range',
  'collected-in-future',
  'collected-before-birth',
  'collected-after-death',
  'happened-in-future',
  'happened-before-birth',
  'happened-after-death',
  'conflicting-value',
  'correction-before-original',
  'patient-unclear',
  'status-unclear',
  'escape-unknown',
  'kind-not-read',
  'time-twice',
] as const
export type HeldReason = (typeof HELD_REASONS)[number]

/** Why a row is not stored. */
export const REFUSED_REASONS = [
  'row-too-long',
  'row-too-short',
  'missing-field',
  'column-not-used',
  'bad-character',
  'bad-date',
  'bad-status',
  'bad-word',
  'not-a-number',
  'not-a-whole-number',
  'negative',
  'message-not-read',
  'type-not-read',
  'no-resource',
  'meaning-changed',
  'bad-element',
  'subject-unclear',
  'record-not-in-use',
  'only-groups',
] as const
export type RefusedReason = (typeof REFUSED_REASONS)[number]

/** Why a file is not read at all. */
export const FILE_REASONS = [
  'empty-file',
  'file-too-large',
  'not-a-text-file',
  'nul-byte',
  'not-utf-8',
  'unclosed-quote',
  'misplaced-quote',
  'unknown-header',
  'missing-column',
  'duplicate-column',
  'unknown-column',
  'hl7-separators',
  'hl7-structure',
  'hl7-truncated',
  'hl7-count',
  'hl7-character-set',
  'hl7-no-results',
  'hl7-no-header',
  'hl7-processing',
  'hl7-version',
  'hl7-control-id',
  'hl7-control-id-used',
  'broken-json',
  'duplicate-key',
  'nested-too-deep',
  'unknown-json',
  'bundle-not-read',
] as const
export type FileReason = (typeof FILE_REASONS)[number]

/** A row that waits, with the day it speaks of where that could be read. */
export interface HeldRow {
  readonly outcome: 'held'
  readonly reason: HeldReason
  readonly sentence: string
  readonly on: Day | null
}

export interface RefusedRow {
  readonly outcome: 'refused'
  readonly reason: RefusedReason
  readonly sentence: string
}

/** What became of a row when it was read: a value to file, or a problem with its reason. */
export type Interpreted<Value> = { readonly outcome: 'take'; readonly value: Value } | HeldRow | RefusedRow

/** A problem of a row before it is known whose day it concerns. */
export type Problem = Omit<HeldRow, 'on'> | RefusedRow
