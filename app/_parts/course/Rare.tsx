import type { CoursePanel, Replaced, Stretch } from '../../../lib/charts/inBrowser.ts'
import { across } from './places.ts'

interface Props {
  readonly panel: CoursePanel
  readonly stretch: Stretch
  readonly height: (at: number) => number | null
}

const CROSS = 'M-4 -4L4 4M-4 4L4 -4'
const BAR = 'M-5 0H5'

interface Placed extends Replaced {
  readonly y: number
}

function placed<V extends Replaced>(values: readonly V[], { from, to }: Stretch, height: Props['height']): readonly (V & Placed)[] {
  return values.flatMap((value) => {
    const y = value.at === null || value.day < from || value.day > to ? null : height(value.at)
    return y === null ? [] : [{ ...value, y }]
  })
}

/** What was said before a correction, tied to what is said now; and what was taken out, crossed. Few, and drawn one by one, so that they keep their form. */
export function Rare({ panel: { series, leftOut }, stretch, height }: Props) {
  const corrected = series.flatMap(({ points }) =>
    points.flatMap((point) => placed(point.was, stretch, height).map((was) => ({ was, point, y: point.at === null ? null : height(point.at) }))),
  )
  return (
    <>
      {corrected.map(({ was, point, y }) => (
        <svg
          aria-hidden="true"
          key={`was-${was.day}-${was.label}-${point.label}`}
          className="course-was"
          x={`${across(stretch, was.day)}%`}
          y={was.y}
          overflow="visible"
        >
          <path d={BAR} />
          {y !== null && was.day === point.day && <path className="tie" d={`M0 0V${y - was.y}`} />}
        </svg>
      ))}
      {placed(leftOut, stretch, height).map(({ day, label, why, y }) => (
        <svg aria-hidden="true" key={`out-${day}-${label}-${why}`} className="course-out" x={`${across(stretch, day)}%`} y={y} overflow="visible">
          <path d={CROSS} />
        </svg>
      ))}
    </>
  )
}
