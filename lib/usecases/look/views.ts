import type { Window } from '../../rules/index.ts'

/** What would change what is said, in sentences; each was found by assessing the patient as if it had come. */
export interface ChangesView {
  readonly window: Window
  /** Of what is open, the most urgent first. */
  readonly ofFindings: readonly string[]
  /** Of the leading markers: what a next value would first show. */
  readonly ofMarkers: readonly string[]
  readonly holds: string
  /** What no value was found for, and what was not asked for; empty where neither is. */
  readonly besides: readonly string[]
}

/** The physician's look at one patient. */
export interface LookView {
  /** One sentence of where the patient stands. */
  readonly stands: string
  readonly changes: ChangesView
}
