import { memo } from 'react'
import type { CoursePlan } from '../../../lib/charts/inBrowser.ts'
import { EventSign } from './Lanes.tsx'

interface Props {
  readonly plan: CoursePlan
  readonly laboratory: string | null
}

function Sign({ children, className = '' }: { readonly children: React.ReactNode; readonly className?: string }) {
  return (
    <svg className={className} width="26" height="20" viewBox="-13 -10 26 20" aria-hidden="true">
      {children}
    </svg>
  )
}

const DOT = 'M0 0h0.01'

/** How to read the picture: only the signs that occur in it, each in words. */
export const CourseLegend = memo(function CourseLegend({ plan: { panels, lines, events }, laboratory }: Props) {
  const points = panels.flatMap(({ series }) => series.flatMap((one) => one.points)).filter(({ at }) => at !== null)
  const marked = (kind: string) => panels.some(({ marks }) => marks.some((mark) => mark.kind === kind))
  const named = (name: string | null) => name ?? 'laboratory not named'
  const others = [...new Set(points.map((point) => point.laboratory))].filter((name) => name !== laboratory).map(named)
  const level = (kind: string, words: string, foot = false) =>
    marked(kind) && (
      <li className={`mark-${kind}`}>
        <Sign>
          <path className="level" d="M-12 -2H12" />
          {foot && <path className="foot" d="M-10 -2v7m-3 0h6" />}
        </Sign>{' '}
        {words}
      </li>
    )
  return (
    <ul className="course-legend" aria-label="How to read the course">
      {lines.length > 0 && (
        <li className="course-band">
          <Sign>
            <rect x={-12} y={-8} width={24} height={16} />
            <line x1={-12} x2={-12} y1={-8} y2={8} />
          </Sign>{' '}
          treatment line
        </li>
      )}
      {level('lowest', 'lowest value of this window, from the day it was set', true)}
      {level('lowest-confirmed', 'lowest confirmed: two samples in a row reached it', true)}
      {level('criterion', 'criterion')}
      {level('criterion-confirmed', 'where a second sample would confirm')}
      {level('limit', 'danger and laboratory limits')}
      {panels.some(({ trends }) => trends.length > 0) && (
        <li>
          <Sign>
            <path className="trend-line" d="M-12 0H12" />
          </Sign>{' '}
          trend of the last 12 months, shaded: its 95 % interval
        </li>
      )}
      {points.some(({ censored }) => censored !== null) && (
        <li className="course-series">
          <Sign>
            <path className="stroke" d="M0 0V8" />
            <path className="dots" d={DOT} />
            <path className="hole" d={DOT} />
          </Sign>{' '}
          known only as a limit (&lt; or &gt;): the stroke points to where it lies
        </li>
      )}
      {points.some(({ corrected }) => corrected) && (
        <li className="course-series">
          <Sign>
            <path className="ring" d={DOT} />
            <path className="ring-hole" d={DOT} />
            <path className="dots" d={DOT} />
          </Sign>{' '}
          corrected report
        </li>
      )}
      {points.some(({ was }) => was.some(({ at }) => at !== null)) && (
        <li className="course-was">
          <Sign>
            <path d="M-5 -5H5" />
            <path className="tie" d="M0 -5V8" />
          </Sign>{' '}
          bar: what was said before the correction
        </li>
      )}
      {panels.some(({ leftOut }) => leftOut.length > 0) && (
        <li className="course-out">
          <Sign>
            <path d="M-4 -4L4 4M-4 4L4 -4" />
          </Sign>{' '}
          does not count: excluded or withdrawn
        </li>
      )}
      {panels.some(({ series }) => series.some(({ breaks }) => breaks.length > 0)) && (
        <li>
          <Sign>
            <line className="course-break" x1={0} x2={0} y1={-8} y2={8} />
          </Sign>{' '}
          line interrupted: laboratory or method changed
        </li>
      )}
      {others.length > 0 && (
        <li className="course-series">
          <Sign>
            <path className="dots" d={DOT} />
          </Sign>{' '}
          filled: {named(laboratory)}
          <Sign>
            <path className="dots" d={DOT} />
            <path className="hole" d={DOT} />
          </Sign>{' '}
          hollow: {others.join(', ')}
        </li>
      )}
      {(['marrow', 'imaging'] as const).map(
        (kind) =>
          events.some((event) => event.kind === kind) && (
            <li key={kind} className="course-event">
              <Sign>
                <EventSign kind={kind} />
              </Sign>{' '}
              {kind === 'marrow' ? 'marrow examination' : 'imaging'}
            </li>
          ),
      )}
    </ul>
  )
})
