import { type LatenessPicture, latenessChart } from '../../../../lib/charts/index.ts'
import type { Figures } from '../../../../lib/followup/index.ts'
import { AuditFigure, type Tables } from './AuditFigure.tsx'
import { Legend } from './Legend.tsx'
import { BelowPlot, Plot } from './Plot.tsx'
import { anchorAt, FOOT, heightsOf, rowAt, topBelow } from './places.ts'

// The median's words end at its line and the other's begin there, so that no line runs through them; at the edges they turn round.
function sideOf(kind: 'median' | 'p90', at: number): 'start' | 'end' {
  return kind === 'median' ? (at < 30 ? 'start' : 'end') : at > 55 ? 'end' : 'start'
}

/** The median and the 90th percentile: a line each, their words above the bars. */
function Marks({ marks }: Pick<LatenessPicture, 'marks'>) {
  return marks.map(({ kind, at, label }, row) => (
    <g key={kind} className={`audit-${kind}`}>
      <line x1={`${at}%`} x2={`${at}%`} y1={rowAt(marks.length - 1 - row, marks.length) + 4} y2={FOOT} />
      <text x={`${at}%`} y={rowAt(marks.length - 1 - row, marks.length)} textAnchor={sideOf(kind, at)}>
        {label}
      </text>
    </g>
  ))
}

function Picture({ picture, title, says }: { readonly picture: LatenessPicture; readonly title: string; readonly says: string }) {
  const { bars, days, most, counts, marks } = picture
  const height = heightsOf(0, most, topBelow(marks.length))
  const ticks = counts.map(({ at, label }) => ({ label, y: height(at) }))
  return (
    <div className="audit-picture">
      <Plot id="audit-lateness-plot" title={title} says={says} ticks={ticks}>
        {bars.map(({ from, to, count, open, label }) => (
          <rect
            key={label}
            className={open ? 'audit-bar audit-bar-open' : 'audit-bar'}
            x={`${from + 0.15}%`}
            width={`${to - from - 0.3}%`}
            y={height(count)}
            height={Math.max(0, FOOT - height(count))}
          />
        ))}
        <Marks marks={marks} />
      </Plot>
      <BelowPlot
        height={20}
        worded={false}
        names={
          <text x="100%" dx={-6} y={15} textAnchor="end">
            days late
          </text>
        }
      >
        {days.map(({ at, label }) => (
          <text key={label} x={`${at}%`} y={15} textAnchor={anchorAt(at, 2)}>
            {label}
          </text>
        ))}
      </BelowPlot>
    </div>
  )
}

/** How many days after their due day the late tests were done. */
export function LatenessChart({ figures, tables = 'behind' }: { readonly figures: Figures; readonly tables?: Tables }) {
  const chart = latenessChart(figures)
  return (
    <AuditFigure chart={chart} tables={tables}>
      {(picture) => (
        <>
          <Picture picture={picture} title={`${chart.title}: tests by days since their due day`} says={chart.sentence} />
          <Legend
            of={chart.title}
            signs={[
              { words: 'tests that were so many days late', drawn: <rect className="audit-bar" x={-9} y={-8} width={18} height={16} /> },
              picture.bars.some(({ open }) => open)
                ? { words: 'that many days or more', drawn: <rect className="audit-bar audit-bar-open" x={-9} y={-8} width={18} height={16} /> }
                : null,
            ]}
          />
        </>
      )}
    </AuditFigure>
  )
}
