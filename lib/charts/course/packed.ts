import type { CoursePanel, CoursePlan, CoursePoint, CourseSeries } from './coursePlan.ts'

/** A series without what its points share: a page repeats what it sends to the browser, and a long course has thousands of points. */
interface PackedSeries extends Pick<CourseSeries, 'name' | 'breaks'> {
  /** Days since the point before. */
  readonly days: readonly number[]
  readonly at: readonly CoursePoint['at'][]
  /** "+5 +50.0" for "+5 g/L, +50.0 %", other words behind an equals sign, nothing for none; a bar between two points. */
  readonly changes: string
  /** Of most points. */
  readonly laboratory: string | null
  /** By position: what a point has otherwise than expected. */
  readonly rest: Readonly<Record<number, Partial<CoursePoint>>>
}

/** The course as it is sent to a browser. */
export type PackedCourse = Omit<CoursePlan, 'panels'> & {
  readonly panels: readonly (Omit<CoursePanel, 'series'> & { readonly series: readonly PackedSeries[] })[]
}

const NONE: CoursePoint['was'] = []

function expected(day: number, at: CoursePoint['at'], change: string | null, laboratory: string | null): CoursePoint {
  return { day, at, label: String(at), censored: null, change, corrected: false, was: NONE, laboratory }
}

function packedChange(change: string | null, unit: string): string {
  if (change === null) return ''
  const [, amount, percent, rest] = /^(\S+) (?:.*), (\S+) %(.*)$/.exec(change) ?? []
  return rest === '' && change === `${amount} ${unit}, ${percent} %` ? `${amount} ${percent}` : `=${change}`
}

function unpackedChange(packed: string, unit: string): string | null {
  if (packed === '') return null
  if (packed.startsWith('=')) return packed.slice(1)
  const [amount, percent] = packed.split(' ')
  return `${amount} ${unit}, ${percent} %`
}

function restOf(point: CoursePoint, usual: CoursePoint): Partial<CoursePoint> | null {
  const { label, censored, corrected, was, laboratory } = point
  const rest: Partial<CoursePoint> = {
    ...(label === usual.label ? {} : { label }),
    ...(censored === null ? {} : { censored }),
    ...(corrected ? { corrected } : {}),
    ...(was.length === 0 ? {} : { was }),
    ...(laboratory === usual.laboratory ? {} : { laboratory }),
  }
  return Object.keys(rest).length === 0 ? null : rest
}

function packedSeries({ name, breaks, points }: CourseSeries, unit: string): PackedSeries {
  const laboratory = points[0]?.laboratory ?? null
  const rest = points.map((point) => restOf(point, expected(point.day, point.at, point.change, laboratory)))
  return {
    ...{ name, breaks, laboratory },
    days: points.map(({ day }, at) => day - (points[at - 1]?.day ?? 0)),
    at: points.map(({ at }) => at),
    changes: points.every(({ change }) => change === null) ? '' : points.map(({ change }) => packedChange(change, unit)).join('|'),
    rest: Object.fromEntries(rest.flatMap((one, at) => (one === null ? [] : [[at, one]]))),
  }
}

function unpackedSeries({ name, breaks, laboratory, days, at, changes, rest }: PackedSeries, unit: string): CourseSeries {
  const each = changes.split('|')
  let day = 0
  const points = at.map((value, position): CoursePoint => {
    day += days[position] ?? 0
    return { ...expected(day, value, unpackedChange(each[position] ?? '', unit), laboratory), ...rest[position] }
  })
  return { name, points, breaks }
}

/** The course as it is sent. */
export function packCourse(plan: CoursePlan): PackedCourse {
  return { ...plan, panels: plan.panels.map((panel) => ({ ...panel, series: panel.series.map((series) => packedSeries(series, panel.unit)) })) }
}

/** The course as it was before it was sent. */
export function unpackCourse(packed: PackedCourse): CoursePlan {
  return { ...packed, panels: packed.panels.map((panel) => ({ ...panel, series: panel.series.map((series) => unpackedSeries(series, panel.unit)) })) }
}
