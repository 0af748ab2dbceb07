import type { Day } from '../../time/index.ts'
import type { ChartMarkKind, ChartPlan, SeriesBreak } from '../chart.ts'

/** How the values of the course are laid out. */
export const COURSE_MODES = ['absolute', 'from-lowest', 'logarithmic'] as const
export type CourseMode = (typeof COURSE_MODES)[number]

/** Days since the first day of the plan: the whole course is laid out in them, so that a browser needs no calendar. */
export type DayCount = number

/** A stretch of the course, both ends included. */
export interface Stretch {
  readonly from: DayCount
  readonly to: DayCount
}

/** A value that a report or a person has taken out: drawn and told, and no part of any line. */
export interface Replaced {
  readonly day: DayCount
  /** For drawing only; null where it was no number. */
  readonly at: number | null
  readonly label: string
}

/** One sample of one series. */
export interface CoursePoint {
  readonly day: DayCount
  /** For drawing only: the value, or the end that is known of it; null where it is told in words without a number. */
  readonly at: number | null
  /** As shown: "14.2", "<1", "not detected". */
  readonly label: string
  readonly censored: 'below' | 'above' | null
  /** From the lowest confirmed value, exact: "+5 g/L, +50.0 %", or why not; null where the panel is not held against one. */
  readonly change: string | null
  readonly corrected: boolean
  /** What the laboratory had said before it corrected it, first report first. */
  readonly was: readonly Replaced[]
  readonly laboratory: string | null
}

export interface CourseSeries {
  readonly name: string
  readonly points: readonly CoursePoint[]
  readonly breaks: readonly (Omit<SeriesBreak, 'on'> & { readonly day: DayCount })[]
}

/** A horizontal mark from the day it was set to the end of the course. */
export interface CourseMark {
  readonly kind: ChartMarkKind | 'criterion-confirmed'
  readonly day: DayCount
  readonly at: number
  readonly label: string
}

/** One marker, laid out on the shared axis of time. */
export interface CoursePanel {
  readonly id: ChartPlan['id'] | 'dflc'
  readonly title: string
  /** "serum M-protein": inside a sentence. */
  readonly name: string
  readonly unit: string
  /** Whether it counts from zero: such a panel has a logarithmic layout, the others stay as measured. */
  readonly fromZero: boolean
  readonly series: readonly CourseSeries[]
  readonly marks: readonly CourseMark[]
  /** Values taken out as spurious or withdrawn by the laboratory. */
  readonly leftOut: readonly (Replaced & { readonly why: 'excluded' | 'withdrawn' })[]
  /** The lowest confirmed value changes are counted from; null where the panel is not held against one. */
  readonly reference: { readonly day: DayCount; readonly at: number; readonly label: string } | null
  readonly trends: readonly { readonly name: string; readonly curve: readonly TrendPlace[] }[]
  /** What the panel says, in one sentence. */
  readonly sentence: string
}

export interface TrendPlace {
  readonly day: DayCount
  readonly at: number
  readonly low: number | null
  readonly high: number | null
}

/** A span of the course with its name: a treatment line, a phase. */
export interface CourseSpan extends Stretch {
  readonly short: string
  readonly label: string
}

/** Something that was done on a day and is no laboratory value. */
export interface CourseEventMark {
  readonly day: DayCount
  readonly kind: 'marrow' | 'imaging'
  readonly says: string
}

/** The course of one patient before it is a picture: every marker on one axis of time. */
export interface CoursePlan {
  readonly from: Day
  readonly to: Day
  /** Days from `from` to `to`. */
  readonly length: DayCount
  readonly lines: readonly CourseSpan[]
  readonly phases: readonly CourseSpan[]
  readonly events: readonly CourseEventMark[]
  readonly panels: readonly CoursePanel[]
  /** Where the current window of comparison opens, with its baseline; null where none does. */
  readonly window: { readonly day: DayCount; readonly label: string } | null
}
