import { LinePath } from '@visx/shape'
import type { ChartPlan } from '../../../lib/charts/index.ts'
import type { Places } from './frame.ts'
import { type PointPaths, pointPaths } from './pointPaths.ts'

interface Props {
  readonly series: ChartPlan['series'][number]
  readonly at: number
  readonly places: Places
  /** Whose values are filled. */
  readonly laboratory: string | null
  /** Written beside the latest value. */
  readonly named: boolean
}

/** Room the latest value's words need to their left. */
const ROOM = 110

const DRAWN: readonly (keyof PointPaths)[] = ['filled', 'hollow', 'open', 'rings']

/** The points of a series in the pieces its line is drawn in: none crosses a change of laboratory or method. */
function unbroken(points: Props['series']['points'], breaks: Props['series']['breaks']): readonly Props['series']['points'][] {
  const starts = [0, ...breaks.map(({ on }) => points.findIndex((point) => point.on === on))]
  return starts.map((start, piece) => points.slice(start, starts[piece + 1]))
}

/** One series: its values joined in time, the line interrupted where they may not be comparable, each drawn by what is known of it, the latest with its number. */
export function Points({ series: { name, points, breaks }, at, places, laboratory, named }: Props) {
  const paths = pointPaths(points, places, at === 0 ? 'round' : 'square', laboratory)
  const latest = points.at(-1)
  const anchor = latest !== undefined && places.x(latest.on) < ROOM ? 'start' : 'end'
  return (
    <g className={`series series-${at + 1}`}>
      {unbroken(points, breaks).map((piece) => (
        <LinePath key={piece[0]?.on} data={[...piece]} x={(point) => places.x(point.on)} y={(point) => places.y(point.y)} className="joined" />
      ))}
      {DRAWN.map((kind) => paths[kind] !== '' && <path key={kind} className={kind} d={paths[kind]} />)}
      {latest !== undefined && (
        <text className="latest" x={places.x(latest.on)} y={Math.max(places.y(latest.y) - 9, 11)} textAnchor={anchor}>
          {named ? `${name} ${latest.label}` : latest.label}
        </text>
      )}
    </g>
  )
}
