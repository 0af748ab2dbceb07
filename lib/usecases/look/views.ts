import type { Arithmetic, ChangeBetween } from '../../look/index.ts'
import type { Window } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'

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

/** One part of the response: values with unit and day, the fall in per cent, and what it says of each category. */
export interface FallView {
  readonly part: string
  readonly baseline: string | null
  readonly current: string | null
  readonly fall: string | null
  readonly says: { readonly VGPR: string; readonly PR: string; readonly MR: string }
}

export interface ResponsePartsView {
  readonly falls: readonly FallView[]
  readonly complete: readonly { readonly asks: string; readonly is: string }[]
  readonly progressed: boolean
}

export interface RiskPartView {
  readonly input: string
  readonly value: string | null
  readonly on: Day | null
  readonly threshold: string
  readonly met: string
  readonly points: number | null
}

/** Where a patient stood on a day. */
export interface StoodView {
  readonly on: Day
  readonly phase: string
  readonly care: string | null
  readonly line: string | null
  readonly response: string | null
  readonly window: Window
}

/** Two days of one patient; `problem` says in words why they could not be compared. */
export type TwoDaysView =
  | { readonly problem: string }
  | {
      readonly problem: null
      readonly from: StoodView
      readonly to: StoodView
      readonly markers: readonly {
        readonly name: string
        readonly unit: string
        readonly from: { readonly text: string; readonly on: Day } | null
        readonly to: { readonly text: string; readonly on: Day } | null
        readonly change: ChangeBetween
      }[]
      readonly appeared: readonly string[]
      readonly ended: readonly string[]
      readonly stayed: readonly string[]
    }

/** The two days somebody asks to see side by side, as typed. */
export interface CompareWish {
  readonly from: string
  readonly to: string
}

/** The physician's look at one patient. */
export interface LookView {
  /** One sentence of where the patient stands. */
  readonly stands: string
  readonly changes: ChangesView
  readonly response: ResponsePartsView | null
  readonly risk: readonly { readonly model: string; readonly parts: readonly RiskPartView[] }[]
  /** That models put the patient into different places; null where they agree. */
  readonly disagreement: string | null
  readonly sums: readonly Arithmetic[]
  /** Of each current finding, in their order, the id of the sum behind the number it tells; null where there is none. */
  readonly sumOf: readonly (string | null)[]
  /** Days on which anything was sampled, latest first. */
  readonly sampleDays: readonly Day[]
  /** Null where nobody asked for one. */
  readonly comparison: TwoDaysView | null
}
