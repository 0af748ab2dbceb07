import { type ChangeEvent, type KeyboardEvent, type PointerEvent, useId } from 'react'
import type { DayCount, Reading, Stretch } from '../../../lib/charts/inBrowser.ts'
import { across } from './places.ts'

interface Props {
  readonly stretch: Stretch
  /** The days that can be read, inside the stretch, oldest first. */
  readonly days: readonly DayCount[]
  readonly day: DayCount
  readonly onDay: (day: DayCount) => void
}

const FAR = 5

/** The day of these nearest to one. */
export function nearestDay(days: readonly DayCount[], day: DayCount): DayCount {
  return days.reduce((near, one) => (Math.abs(one - day) < Math.abs(near - day) ? one : near), days[0] ?? 0)
}

/** The vertical line over all panels; the pointer moves it from day to day. The slider below does the same by keyboard and touch. */
export function CursorLine({ stretch, days, day, onDay }: Props) {
  const x = `${across(stretch, day)}%`
  const follow = (event: PointerEvent<SVGSVGElement>) => {
    const { left, width } = event.currentTarget.getBoundingClientRect()
    const near = nearestDay(days, stretch.from + ((event.clientX - left) / width) * (stretch.to - stretch.from))
    if (near !== day) onDay(near)
  }
  return (
    <svg className="course-cursor" aria-hidden="true" onPointerMove={follow} onPointerDown={follow}>
      <rect className="over" width="100%" height="100%" />
      <line x1={x} x2={x} y1="0" y2="100%" />
    </svg>
  )
}

/** Steps from sample day to sample day; what is heard is the whole reading. */
export function CursorSlider({ stretch, days, day, onDay, says }: Props & { readonly says: string }) {
  const id = useId()
  const at = days.indexOf(day)
  const step: Readonly<Record<string, number>> = {
    ArrowLeft: at - 1,
    ArrowDown: at - 1,
    ArrowRight: at + 1,
    ArrowUp: at + 1,
    PageDown: at - FAR,
    PageUp: at + FAR,
    Home: 0,
    End: days.length - 1,
  }
  const go = (event: KeyboardEvent) => {
    const wanted = step[event.key]
    if (wanted === undefined) return
    event.preventDefault()
    onDay(days[Math.min(Math.max(wanted, 0), days.length - 1)] ?? day)
  }
  return (
    <div className="course-row course-read">
      <span className="course-lane-name">Read</span>
      <div className="course-strip">
        <label className="sr-only" htmlFor={id}>
          Day read in all charts
        </label>
        <input
          id={id}
          type="range"
          className="course-handle course-handle-read"
          aria-valuetext={says}
          min={stretch.from}
          max={stretch.to}
          step={1}
          value={day}
          onKeyDown={go}
          onChange={(event: ChangeEvent<HTMLInputElement>) => onDay(nearestDay(days, Number(event.target.value)))}
        />
      </div>
      <span className="course-turn">
        <button type="button" className="button button-quiet" disabled={at <= 0} onClick={() => onDay(days[at - 1] ?? day)}>
          Earlier
        </button>
        <button type="button" className="button button-quiet" disabled={at >= days.length - 1} onClick={() => onDay(days[at + 1] ?? day)}>
          Later
        </button>
      </span>
    </div>
  )
}

/** The value read, written beside the line in its panel. */
export function ReadingAt({
  reading,
  panel,
  stretch,
  changes,
}: {
  readonly reading: Reading
  readonly panel: string
  readonly stretch: Stretch
  readonly changes: boolean
}) {
  const told = reading.rows.filter((row) => row.panel === panel && row.value !== null)
  const x = across(stretch, reading.day)
  const words = told.map(({ name, value, change, own }) => {
    const text = changes && change !== null ? change : value
    return `${told.length > 1 ? `${name} ` : ''}${text}${own === null ? '' : `, ${own.slice(own.indexOf(',') + 2)}`}`
  })
  return (
    <svg className="course-at" aria-hidden="true">
      <text x={`${x}%`} dx={x > 55 ? -5 : 5} y={11} textAnchor={x > 55 ? 'end' : 'start'}>
        {words.length === 0 ? 'no sample near' : words.join('; ')}
      </text>
    </svg>
  )
}
