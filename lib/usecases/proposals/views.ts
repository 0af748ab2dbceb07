import type { NowWould } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'

/** A finding a change would bring, end or alter. */
export interface FindingInPreview {
  readonly rule: string
  readonly title: string
  readonly window: string
  readonly says: string
}

/** What later samples of one marker would be held against; each mark as "42 g/L of 2025-03-01", null where there is none. */
export interface MarksInPreview {
  readonly marker: string
  readonly rows: readonly (NowWould<string | null> & { readonly mark: 'baseline' | 'lowest' | 'lowest confirmed' })[]
}

/** What a change would do, before it is kept. */
export interface ConsequenceView {
  readonly window: NowWould<string>
  readonly why: NowWould<string>
  /** Facts of the course that would be others, in words: phase, care, line, clinician. */
  readonly facts: readonly (NowWould<string> & { readonly name: string })[]
  readonly appearing: readonly FindingInPreview[]
  readonly ending: readonly FindingInPreview[]
  readonly changing: readonly NowWould<FindingInPreview>[]
  readonly marks: readonly MarksInPreview[]
  readonly response: NowWould<string>
  readonly due: readonly (NowWould<Day | null> & { readonly group: string; readonly because: string })[]
  /** Nothing of all this would be otherwise. */
  readonly isSame: boolean
}

export interface Preview extends ConsequenceView {
  /** What a person should know beside it. */
  readonly notes: readonly string[]
  /** Sent back when it is kept: it names what was shown. */
  readonly stamp: string
}
