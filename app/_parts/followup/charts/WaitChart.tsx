import { type WaitOf, type WaitPicture, WHOLE_AXIS, waitChart } from '../../../../lib/charts/index.ts'
import type { Figures } from '../../../../lib/followup/index.ts'
import { AuditFigure, type Tables } from './AuditFigure.tsx'
import { Legend } from './Legend.tsx'
import { BelowPlot, Plot, Stretched } from './Plot.tsx'
import { along, anchorAt, FOOT, heightsOf, topBelow } from './places.ts'
import { areas, stairs } from './signPaths.ts'

const ticksBelow = 'M0 0V4'

/** Below the days: how many waited still, and how many were done, each under its day. */
function Under({ picture: { under, end, doneWord } }: { readonly picture: WaitPicture }) {
  return (
    <BelowPlot
      height={54}
      worded={false}
      names={
        <>
          <text x="100%" dx={-6} y={15} textAnchor="end">
            day
          </text>
          <text x="100%" dx={-6} y={32} textAnchor="end">
            waiting
          </text>
          <text x="100%" dx={-6} y={48} textAnchor="end">
            {doneWord}
          </text>
        </>
      }
    >
      {under.map(({ day, waiting, done }) => {
        const at = (day / end) * 100
        return (
          <g key={day} className="audit-under">
            <svg x={`${at}%`} y={0} overflow="visible" aria-hidden="true">
              <path d={ticksBelow} />
            </svg>
            {[day, waiting, done].map((number, row) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: three rows, always the same
              <text key={row} x={`${at}%`} y={[15, 32, 48][row]} textAnchor={anchorAt(at, 2)}>
                {number}
              </text>
            ))}
          </g>
        )
      })}
    </BelowPlot>
  )
}

function Picture({
  id,
  picture,
  title,
  says,
}: {
  readonly id: string
  readonly picture: WaitPicture
  readonly title: string
  readonly says: string
}) {
  const { end, levels, band, censored, median } = picture
  const height = heightsOf(0, 1, topBelow(0))
  const across = (day: number): number => (day / end) * 100
  const x = (day: number): number => along(across(day))
  const ticks = WHOLE_AXIS.ticks.map(({ at, label }) => ({ label, y: height(at) }))
  return (
    <div className="audit-picture">
      <Plot id={id} title={title} says={says} ticks={ticks}>
        <Stretched>
          <path
            className="audit-within"
            d={areas(band.map(({ from, to, low, high }) => ({ from: x(from), to: x(to), top: height(high), foot: height(low) })))}
          />
          <path className="audit-curve" d={stairs(levels.map(({ from, to, share }) => ({ from: x(from), to: x(to), y: height(share) })))} />
          <path className="audit-censored" d={censored.map(({ day, share }) => `M${x(day)} ${height(share) - 5}v10`).join('')} />
          {median !== null && <path className="audit-half" d={`M0 ${height(0.5)}H${x(median.day)}V${FOOT}`} />}
        </Stretched>
        {median !== null && (
          <text
            className="audit-strong"
            x={`${across(median.day)}%`}
            dx={across(median.day) > 60 ? -6 : 6}
            y={FOOT - 6}
            textAnchor={across(median.day) > 60 ? 'end' : 'start'}
          >
            {median.label}
          </text>
        )}
      </Plot>
      <Under picture={picture} />
    </div>
  )
}

/** How long findings waited for their review, or for their second sample. */
export function WaitChart({ figures, of, tables = 'behind' }: { readonly figures: Figures; readonly of: WaitOf; readonly tables?: Tables }) {
  const chart = waitChart(figures, of)
  return (
    <AuditFigure chart={chart} tables={tables}>
      {(picture) => (
        <>
          <Picture id={`audit-${of}-plot`} picture={picture} title={`${chart.title}: share that still waited, by day`} says={chart.sentence} />
          <Legend
            of={chart.title}
            signs={[
              { words: 'share of findings that still waited', drawn: <path className="audit-curve" d="M-12 -5H0V5H12" /> },
              picture.band.length > 0 ? { words: '95 % interval (log-log)', drawn: <path className="audit-within" d="M-12 -7H12V7H-12z" /> } : null,
              picture.censored.length > 0
                ? {
                    words: 'watched no longer',
                    drawn: (
                      <>
                        <path className="audit-curve" d="M-12 0H12" />
                        <path className="audit-censored" d="M0 -5v10" />
                      </>
                    ),
                  }
                : null,
              picture.median !== null ? { words: 'the day by which half were done', drawn: <path className="audit-half" d="M-12 -7H0V8" /> } : null,
            ]}
          />
        </>
      )}
    </AuditFigure>
  )
}
