import { Group } from '@visx/group'
import type { ChartPlan } from '../../../lib/charts/index.ts'
import { Axes } from './Axes.tsx'
import { Breaks } from './Breaks.tsx'
import { type PlotSize, placesOf } from './frame.ts'
import { Marks } from './Marks.tsx'
import { Points } from './Points.tsx'
import { TrendCurves } from './TrendCurves.tsx'

interface Props {
  readonly plan: ChartPlan
  readonly size: PlotSize
  /** Whose values are filled; another laboratory's are hollow. */
  readonly laboratory: string | null
}

/** Room a band's full name needs, in the units of the picture. */
const FULL_NAME = 42

function roomAfter(bands: ChartPlan['bands'], at: number, x: (on: ChartPlan['from']) => number): number {
  const [band, next] = [bands[at], bands[at + 1]]
  return band === undefined || next === undefined ? Number.POSITIVE_INFINITY : x(next.from) - x(band.from)
}

/** "Line 2", or only its number where the next line begins too soon to leave room for more. */
function bandName(label: string, at: number, room: number): string {
  const number = /^Line (\d+)/.exec(label)?.[1] ?? String(at + 1)
  return room < FULL_NAME ? number : `Line ${number}`
}

/** One chart as a picture. Its name and its sentence are its text alternative; every number in it stands in the tables below it. */
export function Plot({ plan, size, laboratory }: Props) {
  const places = placesOf(plan, size)
  const name = `${plan.id}-${size.name}`
  return (
    <svg className={`plot plot-${size.name}`} viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${name}-title ${name}-says`}>
      <title id={`${name}-title`}>{`${plan.title}, ${plan.unit}, ${plan.from} to ${plan.to}`}</title>
      <desc id={`${name}-says`}>{plan.sentence}</desc>
      <Group className="bands">
        {plan.bands.map(({ from, to, label }, at) => (
          <g key={label}>
            <rect x={places.x(from)} y={size.top} width={Math.max(places.x(to) - places.x(from), 1)} height={places.foot - size.top} />
            <path className="edge" d={`M${places.x(from)} ${size.top - 4}V${places.foot}`} />
            <text x={places.x(from) + 3} y={size.top - 5}>
              {bandName(label, at, roomAfter(plan.bands, at, places.x))}
            </text>
          </g>
        ))}
      </Group>
      <Axes plan={plan} places={places} size={size} />
      <TrendCurves plan={plan} places={places} />
      <Breaks series={plan.series} places={places} size={size} />
      <Marks marks={plan.marks} places={places} size={size} />
      {plan.series.map((series, at) => (
        <Points key={series.name} series={series} at={at} places={places} laboratory={laboratory} named={plan.series.length > 1} />
      ))}
    </svg>
  )
}
