import { type ChangeEvent, Fragment, type KeyboardEvent, memo, type PointerEvent, useId, useRef } from 'react'
import { type CoursePlan, dayAt, keptInside, panelLayout, type Stretch, stretchSays, wholeCourse } from '../../../lib/charts/inBrowser.ts'
import { across, along, heightsOf, WIDTH } from './places.ts'

interface Props {
  readonly plan: CoursePlan
  readonly stretch: Stretch
  readonly onStretch: (stretch: Stretch) => void
}

const HEIGHT = 96
const WEEK = 7
const QUARTER = 91

/** How far each key moves a handle, in days. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -WEEK,
  ArrowDown: -WEEK,
  ArrowRight: WEEK,
  ArrowUp: WEEK,
  PageDown: -QUARTER,
  PageUp: QUARTER,
}

/** The whole course of the first marker that has values: what the handles choose from. */
const Whole = memo(function Whole({ plan }: Pick<Props, 'plan'>) {
  const whole = wholeCourse(plan)
  const panel = plan.panels.find(({ series }) => series.some(({ points }) => points.some(({ at }) => at !== null)))
  if (panel === undefined) return null
  const height = heightsOf(panelLayout(panel, 'absolute', whole))
  const points = panel.series[0]?.points ?? []
  const d = points.flatMap(({ day, at }) => (at === null ? [] : [`${along(whole, day)} ${height(at) ?? HEIGHT}`])).join('L')
  return (
    <svg aria-hidden="true" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width="100%" height="100%" preserveAspectRatio="none">
      {plan.lines.map(({ short, from, to }) => (
        <rect key={short} className="course-band" x={along(whole, from)} width={Math.max(along(whole, to) - along(whole, from), 1)} height={HEIGHT} />
      ))}
      {d !== '' && <path className="joined" d={`M${d}`} />}
    </svg>
  )
})

/**
 * Which stretch of the course is shown: two handles, by keyboard, mouse and finger, and the strip itself, on which a stretch is drawn with the pointer.
 * It changes the picture alone; nothing is computed from a stretch.
 */
export function Overview({ plan, stretch, onStretch }: Props) {
  const anchor = useRef<number | null>(null)
  const set = (end: 'from' | 'to', day: number) => onStretch(keptInside(plan, { ...stretch, [end]: day }, end))
  const group = useId()
  const handle = (end: 'from' | 'to') => ({
    id: `${group}-${end}`,
    type: 'range',
    className: `course-handle course-handle-${end}`,
    min: 0,
    max: plan.length,
    step: 1,
    value: stretch[end],
    'aria-valuetext': `${dayAt(plan, stretch[end])}, ${stretch.to - stretch.from} days shown of ${plan.length}`,
    onChange: (event: ChangeEvent<HTMLInputElement>) => set(end, Number(event.target.value)),
    onKeyDown: (event: KeyboardEvent) => {
      const step = STEPS[event.key]
      if (step === undefined) return
      event.preventDefault()
      set(end, stretch[end] + step)
    },
  })
  const dayUnder = (event: PointerEvent<SVGSVGElement>): number => {
    const { left, width } = event.currentTarget.getBoundingClientRect()
    return Math.round((Math.min(Math.max((event.clientX - left) / width, 0), 1) || 0) * plan.length)
  }
  const draw = (event: PointerEvent<SVGSVGElement>) => {
    if (anchor.current === null) return
    const [start, at] = [anchor.current, dayUnder(event)]
    onStretch(keptInside(plan, { from: Math.min(start, at), to: Math.max(start, at) }, at < start ? 'from' : 'to'))
  }
  return (
    <div className="course-row course-overview">
      <span className="course-lane-name">Shown</span>
      <div className="course-strip">
        <svg
          className="course-plot"
          aria-hidden="true"
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId)
            anchor.current = dayUnder(event)
          }}
          onPointerMove={draw}
          onPointerUp={() => {
            anchor.current = null
          }}
          onPointerCancel={() => {
            anchor.current = null
          }}
        >
          <Whole plan={plan} />
          <rect className="outside" x="0" width={`${across(wholeCourse(plan), stretch.from)}%`} height="100%" />
          <rect className="outside" x={`${across(wholeCourse(plan), stretch.to)}%`} width="100%" height="100%" />
        </svg>
        {(['from', 'to'] as const).map((end) => (
          <Fragment key={end}>
            <label className="sr-only" htmlFor={`${group}-${end}`}>
              Shown {end}
            </label>
            <input {...handle(end)} />
          </Fragment>
        ))}
      </div>
      <span className="course-stretch">{stretchSays(plan, stretch)}</span>
    </div>
  )
}
