import type { Day } from '../../time/index.ts'
import type { CoursePlan, DayCount } from './coursePlan.ts'

const MS_PER_DAY = 86_400_000

const startOf = (day: Day): number => Date.UTC(Number(day.slice(0, 4)), Number(day.slice(5, 7)) - 1, Number(day.slice(8, 10)))

/** The calendar day so many days after the first of the plan. No calendar library: this runs in the browser, at every move of the cursor. */
export function dayAt({ from }: Pick<CoursePlan, 'from'>, count: DayCount): Day {
  return new Date(startOf(from) + count * MS_PER_DAY).toISOString().slice(0, 10) as Day
}

/** How many days after the first of the plan a day lies. */
export function dayCount({ from }: Pick<CoursePlan, 'from'>, on: Day): DayCount {
  return (startOf(on) - startOf(from)) / MS_PER_DAY
}
