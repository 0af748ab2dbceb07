import type { Day } from '../time/index.ts'
import type { RuleId } from './ruleId.ts'

/** How soon a person should look, soonest first. */
export const WINDOWS = ['same-day', 'within-7-days', 'within-30-days', 'next-visit', 'on-schedule'] as const
export type Window = (typeof WINDOWS)[number]

export const STATES = ['confirmed', 'met', 'unconfirmed'] as const
export type FindingState = (typeof STATES)[number]

export const CAUTIONS = [
  'one-sample',
  'censored',
  'lowest-not-confirmed',
  'method-changed',
  'unit-suspect',
  'antibody-drug',
  'renal-interval',
  'ionised-normal',
  'inside-noise',
  'stale',
  'attributed-elsewhere',
  'removed-by-correction',
  'created-by-correction',
] as const
export type Caution = (typeof CAUTIONS)[number]

export interface Evidence {
  readonly role: 'reference' | 'previous' | 'current'
  readonly analyte: string
  /** Decimal text in the unit kept; for a value without a number, its words. */
  readonly value: string
  readonly unit: string
  readonly comparator: string | null
  readonly collectedOn: Day
  /** The stored results behind it, for the way back to file and row. */
  readonly resultIds: readonly number[]
}

/** What one rule found: facts only; sentences.ts holds the words. */
export interface Finding {
  readonly rule: RuleId
  readonly state: FindingState
  readonly certainty: 'certain' | 'possible'
  readonly window: Window
  /** Collection day of the first sample of the unbroken run that shows it (or the day a gap began). */
  readonly since: Day
  /** Null while current; else the day of the sample that no longer showed it. */
  readonly endedOn: Day | null
  readonly cautions: readonly Caution[]
  readonly evidence: readonly Evidence[]
  /** The numbers and names its sentence needs, as text. */
  readonly facts: Readonly<Record<string, string>>
  /** Value over threshold as a ratio (threshold over value where low is bad); 1 where there is none. */
  readonly excess: number
  readonly organDamage: boolean
  /** Of a finding a correction took back: its sentence as it was told, which no later wording changes. */
  readonly saidThen?: string
}
