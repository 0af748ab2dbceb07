import { memo } from 'react'
import type { CourseEventMark, CoursePlan, CourseSpan, Stretch } from '../../../lib/charts/inBrowser.ts'
import { across } from './places.ts'

const LANE = 20

interface Props {
  readonly plan: CoursePlan
  readonly stretch: Stretch
}

/** Spans with their names in them, cut where the span ends; the whole name stands in the list below and when pointed at. */
function SpanLane({ spans, stretch, className }: { readonly spans: readonly CourseSpan[]; readonly stretch: Stretch; readonly className: string }) {
  return spans
    .filter(({ from, to }) => to >= stretch.from && from <= stretch.to)
    .map(({ from, to, short, label }) => {
      const [start, end] = [Math.max(across(stretch, from), 0), Math.min(across(stretch, to), 100)]
      return (
        <svg key={`${short}-${from}`} className={className} x={`${start}%`} y={1} width={`${Math.max(end - start, 0.4)}%`} height={LANE - 3}>
          <title>{label}</title>
          <rect width="100%" height="100%" />
          {from >= stretch.from && <line x1={0.5} x2={0.5} y1={0} y2="100%" />}
          <text x={5} y={12.5}>
            {label}
          </text>
        </svg>
      )
    })
}

const MARK: Readonly<Record<CourseEventMark['kind'], { readonly d: string; readonly letter: string }>> = {
  marrow: { d: 'M-9 0L-5 -9H5L9 0L5 9H-5Z', letter: 'M' },
  imaging: { d: 'M-8 -8H8V8H-8Z', letter: 'I' },
}

/** The sign of a marrow examination or of imaging: its shape and its letter. */
export function EventSign({ kind }: Pick<CourseEventMark, 'kind'>) {
  return (
    <>
      <path d={MARK[kind].d} />
      <text y={5} textAnchor="middle">
        {MARK[kind].letter}
      </text>
    </>
  )
}

function Row({ name, children }: { readonly name: string; readonly children: React.ReactNode }) {
  return (
    <div className="course-row course-lane" aria-hidden="true">
      <span className="course-lane-name">{name}</span>
      <svg className="course-plot" height={LANE} aria-hidden="true">
        {children}
      </svg>
      <span />
    </div>
  )
}

/** Treatment, phase, marrow and imaging above the panels. What they say stands in words below: in the table, and of the day read beside it. */
export const Lanes = memo(function Lanes({ plan: { lines, phases, events }, stretch }: Props) {
  const shown = events.filter(({ day }) => day >= stretch.from && day <= stretch.to)
  return (
    <>
      {phases.length > 0 && (
        <Row name="Phase">
          <SpanLane spans={phases} stretch={stretch} className="course-phase" />
        </Row>
      )}
      {lines.length > 0 && (
        <Row name="Lines">
          <SpanLane spans={lines} stretch={stretch} className="course-line" />
        </Row>
      )}
      {events.length > 0 && (
        <Row name="Exams">
          {shown.map(({ day, kind, says }) => (
            <svg key={`${day}-${says}`} className="course-event" x={`${across(stretch, day)}%`} y={LANE / 2} overflow="visible">
              <title>{says}</title>
              <EventSign kind={kind} />
            </svg>
          ))}
        </Row>
      )}
    </>
  )
})
