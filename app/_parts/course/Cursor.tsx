import { type ChangeEvent, type KeyboardEvent, memo, type PointerEvent, useId } from 'react'
import { readingSays } from '../../../lib/charts/inBrowser.ts'
import { nearestDay, useDayRead } from './DayRead.tsx'
import { across } from './places.ts'

const FAR = 5

/** The vertical line over all panels; the pointer moves it from day to day. The slider below does the same by keyboard and touch. */
export const CursorLine = memo(function CursorLine() {
  const { stretch, days, reading, onDay, reads } = useDayRead()
  const { day } = reading
  if (!reads) return null
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
})

/** Steps from sample day to sample day; what is heard is the whole reading. */
export const CursorSlider = memo(function CursorSlider() {
  const { stretch, days, reading, onDay } = useDayRead()
  const id = useId()
  const { day } = reading
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
          aria-valuetext={readingSays(reading)}
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
})
