import type { Day } from '../time/index.ts'
import type { SheetTest } from './sheetTest.ts'

/** One value as the sheet prints it. */
export interface SheetValue {
  readonly which: 'this' | 'last' | 'lowest'
  /** "This result", "The one before", "Lowest since this treatment began". */
  readonly label: string
  readonly on: Day
  /** The day as a reader says it: "4 March 2026". */
  readonly day: string
  /** "14.2 g/L", "too little to measure (below 1 g/L)", "none found". */
  readonly text: string
  /** What stood for the value when it was compared: its two ends in the unit kept; null for words without a number. */
  readonly kept: readonly [low: string, high: string | null] | null
  /** How long its bar is, 0 to 100 of the longest of this test, for drawing only; null where there is nothing to draw. */
  readonly bar: number | null
  /** True where only a limit is known: the bar ends somewhere before its own end, or goes on behind it. */
  readonly isLimit: boolean
}

/** One test as the sheet tells it. Every text is as printed, so that a released sheet stays what it was when wording changes. */
export interface SheetItem {
  readonly test: SheetTest
  readonly name: string
  /** What it is, and what it tells. */
  readonly about: readonly string[]
  readonly values: readonly SheetValue[]
  /** What happened since the one before, and to values told on an earlier sheet. */
  readonly change: readonly string[]
  /** Which way is good. */
  readonly good: readonly string[]
  /** What harmless things move it. */
  readonly moves: readonly string[]
}

/** Tests that are due on one day. */
export interface SheetDue {
  readonly on: Day
  readonly day: string
  readonly hasPassed: boolean
  readonly tests: readonly string[]
}

/** The sheet for one patient, as data. Everything a reader sees stands in it. */
export interface Sheet {
  /** Whose it is: the name, or the number where no name is recorded. */
  readonly who: string
  readonly born: string
  readonly madeOn: Day
  readonly madeOnDay: string
  readonly intro: readonly string[]
  readonly items: readonly SheetItem[]
  /** Tests that were chosen and have no result. */
  readonly notMeasured: readonly string[]
  /** What the reader has to know of the results: some are being checked, some have none yet. */
  readonly notes: readonly string[]
  readonly due: readonly SheetDue[]
  /** The visit, and what to do about a day that has passed. */
  readonly next: readonly string[]
  /** What the physician typed; null where nothing. */
  readonly own: string | null
  readonly caution: readonly string[]
}
