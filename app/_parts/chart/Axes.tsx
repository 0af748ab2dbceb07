import { AxisBottom, AxisLeft, type TickRendererProps } from '@visx/axis'
import { scaleLinear } from '@visx/scale'
import { type ChartPlan, timeTicks } from '../../../lib/charts/index.ts'
import type { Places, PlotSize } from './frame.ts'

interface Props {
  readonly plan: ChartPlan
  readonly places: Places
  readonly size: PlotSize
}

// Own text elements: the library's carry style attributes, which the Content Security Policy refuses.
const below = ({ x, y, formattedValue }: TickRendererProps) => (
  <text x={x} y={y + 2} textAnchor="middle">
    {formattedValue}
  </text>
)
const beside = ({ x, y, formattedValue }: TickRendererProps) => (
  <text x={x} y={y + 4} textAnchor="end">
    {formattedValue}
  </text>
)

/** The shared time axis and the axis of values. Both map places, not values: the plan has chosen the ticks. */
export function Axes({ plan, places, size }: Props) {
  const times = timeTicks(plan, size.timeTicks).map(({ on, label }) => ({ at: places.x(on), label }))
  const values = plan.yTicks.map(({ at, label }) => ({ at: places.y(at), label }))
  const across = scaleLinear<number>({ domain: [size.left, places.end], range: [size.left, places.end] })
  const up = scaleLinear<number>({ domain: [size.top, places.foot], range: [size.top, places.foot] })
  return (
    <g className="axis">
      <path className="grid" d={values.map(({ at }) => `M${size.left} ${at}H${places.end}`).join('')} />
      <AxisBottom
        top={places.foot}
        scale={across}
        tickValues={times.map(({ at }) => at)}
        tickFormat={(_, at) => times[at]?.label ?? ''}
        tickLength={4}
        tickComponent={below}
        stroke=""
        tickStroke=""
      />
      {values.length > 0 && (
        <AxisLeft
          left={size.left}
          scale={up}
          tickValues={values.map(({ at }) => at)}
          tickFormat={(_, at) => values[at]?.label ?? ''}
          tickLength={4}
          tickComponent={beside}
          hideAxisLine
          hideTicks
        />
      )}
    </g>
  )
}
