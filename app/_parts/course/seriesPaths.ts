import type { CoursePoint, CourseSeries, Stretch } from '../../../lib/charts/inBrowser.ts'
import { along } from './places.ts'

/** Path data of one series on one stretch: the lines between its values, and one path for each way of drawing a value. */
export interface SeriesPaths {
  readonly lines: string
  /** Values of the main laboratory. */
  readonly filled: string
  /** Values of another laboratory. */
  readonly hollow: string
  /** Known only as a limit: open, with a stroke towards where the value lies. */
  readonly open: string
  readonly strokes: string
  /** Around values of corrected reports. */
  readonly rings: string
}

interface Seen {
  readonly point: CoursePoint
  readonly x: number
  readonly y: number
}

const STROKE = 9

/** The values a stretch shows, with the one before and the one after it, so that lines leave the picture where they go on. */
function seen(points: readonly CoursePoint[], { from, to }: Stretch): readonly CoursePoint[] {
  const first = points.findIndex(({ day }) => day >= from)
  const after = points.findIndex(({ day }) => day > to)
  return points.slice(first === -1 ? Math.max(points.length - 1, 0) : Math.max(first - 1, 0), after === -1 ? points.length : after + 1)
}

/** A stroke of no length with round or square ends: a dot that keeps its form however far the picture is stretched. */
const dot = ({ x, y }: Seen): string => `M${x} ${y}h0.01`

/** Lines never cross a change of laboratory or method, nor a value that has no place in the picture. */
export function seriesPaths(
  { points, breaks }: CourseSeries,
  stretch: Stretch,
  height: (at: number) => number | null,
  laboratory: string | null,
): SeriesPaths {
  const paths = { lines: '', filled: '', hollow: '', open: '', strokes: '', rings: '' }
  const starts = new Set(breaks.map(({ day }) => day))
  let pen: 'M' | 'L' = 'M'
  for (const point of seen(points, stretch)) {
    const y = point.at === null ? null : height(point.at)
    if (y === null) {
      // Words without a number are no value: the line goes on across them. A value the scale has no place for interrupts it.
      if (point.at !== null) pen = 'M'
      continue
    }
    const at: Seen = { point, x: along(stretch, point.day), y }
    paths.lines += `${starts.has(point.day) ? 'M' : pen}${at.x} ${at.y}`
    pen = 'L'
    if (point.day < stretch.from || point.day > stretch.to) continue
    if (point.corrected) paths.rings += dot(at)
    if (point.censored !== null) {
      paths.open += dot(at)
      paths.strokes += `M${at.x} ${point.censored === 'below' ? y + 3 : y - 3}v${point.censored === 'below' ? STROKE : -STROKE}`
    } else if (point.laboratory === laboratory) paths.filled += dot(at)
    else paths.hollow += dot(at)
  }
  return paths
}
