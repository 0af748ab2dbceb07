import type { CourseMode, CoursePlan, CoursePoint, DayCount } from './coursePlan.ts'
import { dayAt } from './dayAt.ts'
import { cellText, pointNotes } from './reading.ts'

/** Every sample of the course in a row of its day, newest first; the cells follow the mode. */
export interface CourseTable {
  readonly columns: readonly string[]
  readonly rows: readonly { readonly on: string; readonly cells: readonly string[]; readonly note: string }[]
}

function noteOf(points: readonly (readonly [name: string, point: CoursePoint])[], main: string | null, changes: readonly string[]): string {
  const said = points.flatMap(([name, point]) => pointNotes({ ...point, censored: null }, main).map((note) => `${name}: ${note}`))
  return [...said, ...changes].join('; ')
}

/** The table under the picture: every value in it, and what is said of each. `main` is the laboratory that is not named. */
export function courseTable(plan: CoursePlan, mode: CourseMode, main: string | null): CourseTable {
  const drawn = plan.panels.flatMap(({ unit, series, reference }) =>
    series.filter(({ points }) => points.length > 0).map((one) => ({ ...one, unit, counted: mode === 'from-lowest' && reference !== null })),
  )
  const byDay = new Map<DayCount, (readonly [column: number, point: CoursePoint])[]>()
  drawn.forEach(({ points }, column) => {
    for (const point of points) byDay.set(point.day, [...(byDay.get(point.day) ?? []), [column, point]])
  })
  const changes = (day: DayCount) =>
    drawn.flatMap(({ name, breaks }) => breaks.filter((one) => one.day === day).map(({ says }) => `${name}: ${says}`))
  return {
    columns: drawn.map(({ name, unit, counted }) => (counted ? `${name}, from lowest confirmed` : `${name}, ${unit}`)),
    rows: [...byDay]
      .sort(([a], [b]) => b - a)
      .map(([day, points]) => ({
        on: dayAt(plan, day),
        cells: drawn.map((_, column) => points.filter(([at]) => at === column).map(([, point]) => cellText(point, mode))[0] ?? ''),
        note: noteOf(
          points.map(([column, point]) => [drawn[column]?.name ?? '', point] as const),
          main,
          changes(day),
        ),
      })),
  }
}
