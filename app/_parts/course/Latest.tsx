import { memo } from 'react'
import type { CoursePanel, PanelLayout, Stretch } from '../../../lib/charts/inBrowser.ts'
import { apart } from '../chart/apart.ts'
import { across, HEIGHT, heightsOf } from './places.ts'

interface Props {
  readonly panel: CoursePanel
  readonly layout: PanelLayout
  readonly stretch: Stretch
}

const LABEL_HEIGHT = 13

/** The latest value a stretch shows of each series, written over it; of two as high each keeps its own line. */
export const Latest = memo(function Latest({ panel: { series }, layout, stretch }: Props) {
  const height = heightsOf(layout)
  const latest = series.flatMap(({ name, points }, at) => {
    const point = points.findLast(({ at: value, day }) => value !== null && day >= stretch.from && day <= stretch.to)
    const y = point === undefined || point.at === null ? null : height(point.at)
    return point === undefined || y === null ? [] : [{ name, at, label: point.label, x: across(stretch, point.day), y: y - 8 }]
  })
  const heights = apart(
    latest.map(({ y }) => y),
    LABEL_HEIGHT,
    11,
    HEIGHT - 10,
  )
  return (
    <svg className="course-at" aria-hidden="true">
      {latest.map(({ name, label, x }, order) => (
        <text key={name} className="course-latest" x={`${x}%`} y={heights[order]} textAnchor={x < 15 ? 'start' : 'end'}>
          {series.length > 1 ? `${name} ${label}` : label}
        </text>
      ))}
    </svg>
  )
})
