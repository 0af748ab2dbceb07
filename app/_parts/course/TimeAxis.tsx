import { memo } from 'react'
import { type CoursePlan, dayAt, dayCount, type Stretch, timeTicks } from '../../../lib/charts/inBrowser.ts'
import { across } from './places.ts'

const TICKS = { wide: 9, narrow: 4 } as const

/** The one axis of time below the panels. Fewer days are named where the window is narrow. */
export const TimeAxis = memo(function TimeAxis({ plan, stretch }: { readonly plan: CoursePlan; readonly stretch: Stretch }) {
  const span = { from: dayAt(plan, stretch.from), to: dayAt(plan, stretch.to) }
  return (
    <div className="course-row course-time" aria-hidden="true">
      <span />
      <div>
        {(['wide', 'narrow'] as const).map((size) => (
          <svg key={size} aria-hidden="true" className={`course-plot time-${size}`} height={20}>
            {timeTicks(span, TICKS[size]).map(({ on, label }) => {
              const x = across(stretch, dayCount(plan, on))
              return (
                <g key={on}>
                  <line x1={`${x}%`} x2={`${x}%`} y1={0} y2={5} />
                  <text x={`${x}%`} y={17} textAnchor={x < 4 ? 'start' : x > 96 ? 'end' : 'middle'}>
                    {label}
                  </text>
                </g>
              )
            })}
          </svg>
        ))}
      </div>
      <span />
    </div>
  )
})
