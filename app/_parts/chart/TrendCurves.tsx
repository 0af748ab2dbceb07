import type { ChartPlan } from '../../../lib/charts/index.ts'
import type { Places } from './frame.ts'

interface Props {
  readonly plan: ChartPlan
  readonly places: Places
}

/** Fitted curves, dashed, each with the band of its interval. The legend names the dashes; their numbers stand in the table of the trend below. */
export function TrendCurves({ plan: { trends = [] }, places }: Props) {
  return trends
    .filter(({ curve }) => curve.length > 0)
    .map(({ name, curve }) => {
      const at = (ends: readonly { readonly x: number; readonly y: number }[]) => ends.map(({ x, y }) => `${x} ${y}`).join('L')
      const upper = curve.flatMap(({ on, high }) => (high === null ? [] : [{ x: places.x(on), y: places.y(high) }]))
      const lower = curve.flatMap(({ on, low }) => (low === null ? [] : [{ x: places.x(on), y: places.y(low) }]))
      return (
        <g className="trend-curve" key={name}>
          {upper.length > 0 && <path className="trend-band" d={`M${at(upper)}L${at(lower.toReversed())}Z`} />}
          <path className="trend-line" d={`M${at(curve.map(({ on, y }) => ({ x: places.x(on), y: places.y(y) })))}`} />
        </g>
      )
    })
}
