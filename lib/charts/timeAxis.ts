import { scaleUtc } from '@visx/scale'
import type { Course } from '../course/index.ts'
import type { Analyte } from '../results/index.ts'
import { addDays, type Day, daysBetween, earlierDay } from '../time/index.ts'

/** The axis all charts of one patient share. */
export interface Span {
  readonly from: Day
  readonly to: Day
}

const DRAWN: readonly Analyte[] = ['serum-m-protein', 'urine-m-protein', 'kappa-flc', 'lambda-flc', 'haemoglobin', 'creatinine', 'calcium']
/** Shortest axis, in days: a first sample of today still gets a place. */
const SHORTEST = 90

/** From the first result drawn, treatment line or diagnosis to the day asked about. */
export function sharedSpan(course: Course): Span {
  const to = course.today
  const starts = [
    ...DRAWN.flatMap((analyte) => course.samplesOf(analyte)[0]?.on ?? []),
    ...course.lines.map((line) => line.start),
    ...(course.diagnosedOn === null ? [] : [course.diagnosedOn]),
  ]
  return { from: starts.reduce(earlierDay, addDays(to, -SHORTEST)), to }
}

export interface TimeTick {
  readonly on: Day
  readonly label: string
}

const instant = (on: Day): number => Date.UTC(Number(on.slice(0, 4)), Number(on.slice(5, 7)) - 1, Number(on.slice(8, 10)))

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

function tickLabel(on: Day, byYear: boolean): string {
  const year = on.slice(0, 4)
  const month = MONTHS[Number(on.slice(5, 7)) - 1] ?? ''
  if (byYear) return year
  return on.endsWith('-01-01') ? year : on.endsWith('-01') ? month : `${Number(on.slice(8))} ${month}`
}

/** About `most` round days on the axis: years, else months, else days. A first tick names its year where no later one does. */
export function timeTicks({ from, to }: Span, most: number): readonly TimeTick[] {
  const days = scaleUtc<number>({ domain: [new Date(instant(from)), new Date(instant(to))] })
    .ticks(most)
    .map((at) => at.toISOString().slice(0, 10) as Day)
  const byYear = days.every((on) => on.endsWith('-01-01'))
  const ticks = days.map((on) => ({ on, label: tickLabel(on, byYear) }))
  const [first, ...rest] = ticks
  if (first === undefined || byYear || ticks.some(({ on }) => on.endsWith('-01-01'))) return ticks
  return [{ on: first.on, label: `${first.label} ${first.on.slice(0, 4)}` }, ...rest]
}

/** Where a day lies on the axis: 0 at its start, 1 at its end. */
export function placeOf({ from, to }: Span, on: Day): number {
  return daysBetween(from, on) / Math.max(daysBetween(from, to), 1)
}
