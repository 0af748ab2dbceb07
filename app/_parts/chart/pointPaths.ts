import type { ChartPoint } from '../../../lib/charts/index.ts'
import type { Places } from './frame.ts'

/** Path data of all points of one series, one path for each way of drawing a point, so that a long history stays small. */
export interface PointPaths {
  /** Values of the series' first laboratory. */
  readonly filled: string
  /** Values of any other laboratory. */
  readonly hollow: string
  /** Known only as a limit: an open marker with a stroke towards where the value lies. */
  readonly open: string
  /** Ring around a value of a corrected report. */
  readonly rings: string
}

const R = 3
const RING = 6

const circle = (x: number, y: number, r: number): string => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`
const square = (x: number, y: number): string => `M${x - R} ${y - R}h${2 * R}v${2 * R}h${-2 * R}z`

/** Kappa and other first series are round, a second series is square; the other laboratory's are hollow. */
export function pointPaths(points: readonly ChartPoint[], places: Places, shape: 'round' | 'square', laboratory: string | null): PointPaths {
  const paths = { filled: '', hollow: '', open: '', rings: '' }
  for (const point of points) {
    const [x, y] = [places.x(point.on), places.y(point.y)]
    const marker = shape === 'round' ? circle(x, y, R) : square(x, y)
    if (point.censored !== null) paths.open += `${marker}M${x} ${point.censored === 'below' ? y + R : y - R}v${point.censored === 'below' ? 6 : -6}`
    else if (point.laboratory === laboratory) paths.filled += marker
    else paths.hollow += marker
    if (point.corrected) paths.rings += circle(x, y, RING)
  }
  return paths
}
