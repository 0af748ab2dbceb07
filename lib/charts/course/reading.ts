import type { CourseMode, CoursePanel, CoursePlan, CoursePoint, CourseSeries, DayCount } from './coursePlan.ts'
import { dayAt } from './dayAt.ts'

/** How far from the day read a sample may lie and still be told for it, with its own day. Nothing is ever interpolated. (ours) */
export const NEAR_DAYS = 14

/** What one series says of a day. */
export interface ReadingRow {
  readonly panel: CoursePanel['id']
  /** Position of the series in its panel. */
  readonly series: number
  readonly name: string
  /** "8.4 g/L", "not detected"; null without a sample near. */
  readonly value: string | null
  /** From the lowest confirmed value; null where the panel has none or nothing is told. */
  readonly change: string | null
  /** Where the sample is not of that day: "2026-03-12, 3 days before". */
  readonly own: string | null
  /** "corrected, was 11.9"; empty where there is nothing to say. */
  readonly notes: readonly string[]
  /** The sample that is told. */
  readonly point: CoursePoint | null
}

export interface Reading {
  readonly day: DayCount
  readonly on: string
  readonly rows: readonly ReadingRow[]
  /** Line, phase, marrow and imaging of that day, and values of it that do not count. */
  readonly beside: readonly string[]
}

/** Every day something was measured, examined or taken out, oldest first: the stops of the cursor. */
export function readingDays({ panels, events }: CoursePlan): readonly DayCount[] {
  const days = [
    ...panels.flatMap(({ series, leftOut }) => [...series.flatMap(({ points }) => points.map(({ day }) => day)), ...leftOut.map(({ day }) => day)]),
    ...events.map(({ day }) => day),
  ]
  return [...new Set(days)].sort((a, b) => a - b)
}

/** The sample of that day, else the nearest within the days that count as near, the earlier of two as near. */
function sampleNear({ points }: CourseSeries, day: DayCount): CoursePoint | null {
  let near: CoursePoint | null = null
  for (const point of points) {
    const far = Math.abs(point.day - day)
    if (far <= NEAR_DAYS && (near === null || far < Math.abs(near.day - day))) near = point
  }
  return near
}

function ownDay(plan: CoursePlan, { day }: CoursePoint, read: DayCount): string | null {
  const apart = Math.abs(day - read)
  if (apart === 0) return null
  return `${dayAt(plan, day)}, ${apart} ${apart === 1 ? 'day' : 'days'} ${day < read ? 'before' : 'after'}`
}

/** A value as a sentence says it, its unit included; words stand without one. */
export function valueText({ label }: Pick<CoursePoint, 'label'>, unit: string): string {
  return /\d$/.test(label) ? `${label} ${unit}` : label
}

/** What there is to say of a sample beside its value. */
export function pointNotes({ corrected, was, censored, laboratory }: CoursePoint, main: string | null): readonly string[] {
  const before = was.map(({ label }) => label).join(', then ')
  return [
    ...(corrected ? [before === '' ? 'corrected report' : `corrected, was ${before}`] : []),
    ...(censored === null ? [] : ['known only as a limit']),
    ...(laboratory === null || laboratory === main ? [] : [laboratory]),
  ]
}

function rowsOf(plan: CoursePlan, panel: CoursePanel, day: DayCount, main: string | null): readonly ReadingRow[] {
  return panel.series.flatMap((series, at) => {
    if (series.points.length === 0) return []
    const point = sampleNear(series, day)
    const told =
      point === null
        ? { value: null, change: null, own: null, notes: [] }
        : { value: valueText(point, panel.unit), change: point.change, own: ownDay(plan, point, day), notes: pointNotes(point, main) }
    return [{ panel: panel.id, series: at, name: series.name, point, ...told }]
  })
}

function beside({ lines, phases, events, panels }: CoursePlan, day: DayCount): readonly string[] {
  const on = ({ from, to }: { readonly from: DayCount; readonly to: DayCount }) => day >= from && day <= to
  const out = panels.flatMap(({ title, unit, leftOut }) =>
    leftOut
      .filter((value) => value.day === day)
      .map(
        (value) =>
          `${title} ${valueText(value, unit)} does not count: ${value.why === 'excluded' ? 'excluded as spurious' : 'withdrawn by the laboratory'}`,
      ),
  )
  const phase = phases.findLast(on)
  const line = lines.findLast(on)
  return [
    ...(phase === undefined ? [] : [phase.label]),
    ...(line === undefined ? [] : [line.label]),
    ...events.filter((event) => event.day === day).map(({ says }) => says),
    ...out,
  ]
}

/** All markers on one day: each value with its own day where that is another one, never a value between two samples. `main` is the laboratory not named. */
export function readingOn(plan: CoursePlan, day: DayCount, main: string | null): Reading {
  return { day, on: dayAt(plan, day), rows: plan.panels.flatMap((panel) => rowsOf(plan, panel, day, main)), beside: beside(plan, day) }
}

function rowSays({ name, value, change, own, notes }: ReadingRow): string {
  if (value === null) return `${name}: no sample within ${NEAR_DAYS} days`
  const more = [...(change === null ? [] : [`${change} from lowest confirmed`]), ...notes, ...(own === null ? [] : [`sample of ${own}`])]
  return `${name} ${value}${more.length === 0 ? '' : ` (${more.join('; ')})`}`
}

/** The reading as one sentence, for whoever hears it. Series without a sample near are not listed one by one. */
export function readingSays({ on, rows, beside: more }: Reading): string {
  const told = rows.filter(({ value }) => value !== null).map(rowSays)
  const missing = rows.filter(({ value }) => value === null).map(({ name }) => name)
  const none = missing.length === 0 ? [] : [`no sample within ${NEAR_DAYS} days: ${missing.join(', ')}`]
  return `On ${on}: ${[...told, ...none, ...more].join('. ')}.`
}

/** What the modes say of a value beside it: the change in the mode that counts from the lowest, nothing in the others. */
export function cellText(point: CoursePoint, mode: CourseMode): string {
  return mode === 'from-lowest' && point.change !== null ? point.change : point.label
}
