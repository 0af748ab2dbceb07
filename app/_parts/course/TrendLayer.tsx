import type { CoursePanel, Stretch } from '../../../lib/charts/inBrowser.ts'
import { along } from './places.ts'

interface Props {
  readonly trends: CoursePanel['trends']
  readonly stretch: Stretch
  readonly height: (at: number) => number | null
}

/** Fitted curves, dashed, each with the band of its interval. Their numbers stand in the tables of the trends. */
export function TrendLayer({ trends, stretch, height }: Props) {
  return trends.map(({ name, curve }) => {
    const path = (ends: readonly (readonly [x: number, y: number | null])[]) => ends.flatMap(([x, y]) => (y === null ? [] : [`${x} ${y}`])).join('L')
    const at = curve.map((place) => ({ ...place, x: along(stretch, place.day) }))
    const upper = path(at.map(({ x, high }) => [x, high === null ? null : height(high)]))
    const lower = path(at.toReversed().map(({ x, low }) => [x, low === null ? null : height(low)]))
    return (
      <g key={name}>
        {upper !== '' && lower !== '' && <path className="trend-band" d={`M${upper}L${lower}Z`} />}
        <path className="trend-line" d={`M${path(at.map((place) => [place.x, height(place.at)]))}`} />
      </g>
    )
  })
}
