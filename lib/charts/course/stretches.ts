import type { CoursePlan, DayCount, Stretch } from './coursePlan.ts'
import { dayAt } from './dayAt.ts'

/** The shortest stretch that can be shown, in days: four weeks, one cycle. (ours) */
export const SHORTEST_STRETCH = 28
const YEAR = 365

/** A stretch with a name to choose it by. */
export interface NamedStretch extends Stretch {
  readonly name: string
}

/** The whole course. */
export function wholeCourse({ length }: Pick<CoursePlan, 'length'>): Stretch {
  return { from: 0, to: length }
}

/** The stretches that can be chosen by name: the whole course, the last 12 months, and the window current values are held against. */
export function namedStretches(plan: CoursePlan): readonly NamedStretch[] {
  const { length, window } = plan
  const named = [{ name: 'whole course', ...wholeCourse(plan) }]
  if (length > YEAR) named.push({ name: 'last 12 months', from: length - YEAR, to: length })
  if (window !== null && window.day > 0 && length - window.day >= SHORTEST_STRETCH) named.push({ name: window.label, from: window.day, to: length })
  return named
}

/** A stretch inside the course and no shorter than the shortest; the end that moved gives way. */
export function keptInside({ length }: Pick<CoursePlan, 'length'>, wanted: Stretch, moved: 'from' | 'to'): Stretch {
  const shortest = Math.min(SHORTEST_STRETCH, length)
  const within = (at: DayCount, low: DayCount, high: DayCount) => Math.round(Math.min(Math.max(at, low), high))
  if (moved === 'from') {
    const to = within(wanted.to, shortest, length)
    return { from: within(wanted.from, 0, to - shortest), to }
  }
  const from = within(wanted.from, 0, length - shortest)
  return { from, to: within(wanted.to, from + shortest, length) }
}

/** "2025-03-01 to 2026-03-01, 365 days". */
export function stretchSays(plan: CoursePlan, { from, to }: Stretch): string {
  return `${dayAt(plan, from)} to ${dayAt(plan, to)}, ${to - from} days`
}
