import type { Day } from '../time/index.ts'
import type { Trend } from './trend.ts'

/** Where the current value lies between the value it is held against and the criterion. Numbers for drawing, text for reading. */
export interface Strip {
  readonly marker: string
  readonly unit: string
  /** "lowest", "baseline", "start of line", ... */
  readonly fromLabel: string
  readonly from: string
  readonly current: string
  /** "progression at", "limit", ... */
  readonly toLabel: string
  readonly to: string
  /** 0 at `from`, 1 at `to`; below 0 and above 1 where it lies outside. */
  readonly position: number
}

export interface ChartPoint {
  readonly on: Day
  /** For drawing only. */
  readonly y: number
  /** As shown: "14.2", "<1", "not detected". */
  readonly label: string
  readonly censored: 'below' | 'above' | null
  readonly corrected: boolean
  readonly laboratory: string | null
}

/** Where the line of a series is interrupted: at its first sample of another laboratory or method. */
export interface SeriesBreak {
  readonly on: Day
  /** "method changed": written in the picture. */
  readonly words: string
  /** The same with both methods named, for the table. */
  readonly says: string
}

/** Horizontal marks: where the lowest value lies, where two samples reached it, where a criterion or another limit lies. */
export type ChartMarkKind = 'lowest' | 'lowest-confirmed' | 'criterion' | 'limit'

/** A chart before it is a picture: points, marks, table and sentence. Shared time axis: all charts of one patient have the same `from` and `to`. */
export interface ChartPlan {
  readonly id:
    | 'serum-m-protein'
    | 'light-chains'
    | 'haemoglobin'
    | 'neutrophils'
    | 'platelets'
    | 'creatinine'
    | 'calcium'
    | 'urine-m-protein'
    | 'immunoglobulin'
  readonly title: string
  readonly unit: string
  readonly scale: 'linear' | 'log'
  readonly from: Day
  readonly to: Day
  readonly yDomain: readonly [number, number]
  readonly yTicks: readonly { readonly at: number; readonly label: string }[]
  readonly series: readonly { readonly name: string; readonly points: readonly ChartPoint[]; readonly breaks: readonly SeriesBreak[] }[]
  /** Treatment lines as bands. */
  readonly bands: readonly { readonly from: Day; readonly to: Day; readonly label: string }[]
  /** Horizontal marks, drawn from the day they were set: lowest, lowest confirmed, criterion, limits. */
  readonly marks: readonly {
    readonly kind: ChartMarkKind
    readonly from: Day
    readonly to: Day
    readonly y: number
    readonly label: string
  }[]
  /** Trends of the last 12 months; left out where the chart follows no marker with one. */
  readonly trends?: readonly Trend[]
  readonly table: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] }
  /** What the chart says, in one sentence; says so where there is no result. */
  readonly sentence: string
}
