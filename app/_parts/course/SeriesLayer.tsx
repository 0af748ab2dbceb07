import type { CourseSeries, Stretch } from '../../../lib/charts/inBrowser.ts'
import { seriesPaths } from './seriesPaths.ts'

interface Props {
  readonly series: CourseSeries
  /** Position among the series of its panel: the first is round and drawn through, the second square and dashed. */
  readonly at: number
  readonly stretch: Stretch
  readonly height: (at: number) => number | null
  readonly laboratory: string | null
}

/** One series: its line, then its values, each drawn by what is known of it. */
export function SeriesLayer({ series, at, stretch, height, laboratory }: Props) {
  const paths = seriesPaths(series, stretch, height, laboratory)
  const openOnes = `${paths.hollow}${paths.open}`
  const drawn = [
    ['joined', paths.lines],
    ['ring', paths.rings],
    ['ring-hole', paths.rings],
    ['stroke', paths.strokes],
    ['dots', `${paths.filled}${openOnes}`],
    ['hole', openOnes],
  ] as const
  return <g className={`course-series course-series-${at + 1}`}>{drawn.map(([kind, d]) => d !== '' && <path key={kind} className={kind} d={d} />)}</g>
}
