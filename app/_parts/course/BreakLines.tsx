import type { CoursePanel, Stretch } from '../../../lib/charts/inBrowser.ts'
import { across, FOOT, TOP } from './places.ts'

interface Props {
  readonly series: CoursePanel['series']
  readonly stretch: Stretch
}

/** Where laboratory or method changed: a dotted vertical halfway between the last value before and the first after. The table says what changed. */
export function BreakLines({ series, stretch }: Props) {
  const at = series.flatMap(({ points, breaks }) =>
    breaks.map(({ day }) => {
      const before = points[points.findIndex((point) => point.day === day) - 1]
      return (day + (before?.day ?? day)) / 2
    }),
  )
  return [...new Set(at)]
    .filter((day) => day >= stretch.from && day <= stretch.to)
    .map((day) => <line key={day} className="course-break" x1={`${across(stretch, day)}%`} x2={`${across(stretch, day)}%`} y1={TOP - 8} y2={FOOT} />)
}
