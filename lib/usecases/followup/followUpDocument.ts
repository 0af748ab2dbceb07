import type { Dimension, Figures, GroupRow, MonthPoint, OnTime, TimeTo } from '../../followup/index.ts'

type Group = OnTime & { readonly key: string }

interface Waits {
  readonly events: number
  readonly open: number
  readonly median: number | null
  /** Day, share without the event after it, and Greenwood's standard error, which is null where nobody is left. */
  readonly curve: readonly (readonly [day: number, survival: number, standardError: number | null])[]
}

/** The JSON of `follow-up`, as the specification of the command line has it. */
export interface FollowUpDocument {
  readonly from: string
  readonly to: string
  readonly onTime: OnTime
  readonly groups: readonly Group[]
  readonly chart: readonly MonthPoint[]
  readonly daysToReview: Waits
  readonly daysToRepeat: Waits
}

/** By what the command line can tell the audit apart. */
export const FOLLOW_UP_BY = ['month', 'clinician', 'phase'] as const satisfies readonly Dimension[]
export type DocumentBy = (typeof FOLLOW_UP_BY)[number]

function waits({ events, open, median, curve }: TimeTo): Waits {
  const steps = curve.steps.filter((step) => step.events > 0)
  return { events, open, median, curve: steps.map(({ time, survival, standardError }) => [time, survival, standardError]) }
}

function group({ key, due, onTime, late, missed, proportion, wilson95 }: GroupRow): Group {
  return { key, due, onTime, late, missed, proportion, wilson95 }
}

/** Figures as that document; `groups` is empty unless they are told apart. */
export function followUpDocument({ from, to, onTime, by, chart, daysToReview, daysToRepeat }: Figures, told: DocumentBy | null): FollowUpDocument {
  return {
    from,
    to,
    onTime,
    groups: told === null ? [] : by[told].map(group),
    // A month in which nothing was due has no share: it is left out here, and is a gap in a picture.
    chart: chart.points.filter(({ proportion }) => proportion !== null),
    daysToReview: waits(daysToReview),
    daysToRepeat: waits(daysToRepeat),
  }
}
