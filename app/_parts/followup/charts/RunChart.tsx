import { auditRun, type RunPicture } from '../../../../lib/charts/index.ts'
import type { Figures } from '../../../../lib/followup/index.ts'
import { AuditFigure, type Tables } from './AuditFigure.tsx'
import { Legend } from './Legend.tsx'
import { changeRows, MonthNames, PlanChanges } from './MonthParts.tsx'
import { Plot, Stretched } from './Plot.tsx'
import { along, anchorAt, FOOT, heightsOf, monthsClass, topBelow } from './places.ts'
import { dot, through } from './signPaths.ts'

/** How far the bracket of a run stands from its points. */
const BRACKET = 12

/** A bracket over or under the months of the longest run, with its words. */
function Run({
  picture: { run, points },
  height,
  top,
}: {
  readonly picture: RunPicture
  readonly height: (share: number) => number
  readonly top: number
}) {
  if (run === null) return null
  const heights = points.filter(({ inRun }) => inRun).map(({ share }) => height(share))
  const below = run.side === 'below'
  const y = below ? Math.min(Math.max(...heights) + BRACKET, FOOT - 16) : Math.max(Math.min(...heights) - BRACKET, top + 14)
  const [middle, turn] = [(run.from + run.to) / 2, below ? -5 : 5]
  return (
    <g className={run.unusual ? 'audit-run audit-run-unusual' : 'audit-run'}>
      <line x1={`${run.from}%`} x2={`${run.to}%`} y1={y} y2={y} />
      <line x1={`${run.from}%`} x2={`${run.from}%`} y1={y} y2={y + turn} />
      <line x1={`${run.to}%`} x2={`${run.to}%`} y1={y} y2={y + turn} />
      <text x={`${middle}%`} y={below ? y + 13 : y - 5} textAnchor={anchorAt(middle, 18)}>
        {run.label}
      </text>
    </g>
  )
}

function Picture({ picture, title, says }: { readonly picture: RunPicture; readonly title: string; readonly says: string }) {
  const { months, shares, points, median, run } = picture
  const hollow = (inRun: boolean): boolean => run !== null && !inRun
  const top = topBelow(changeRows(months))
  const height = heightsOf(shares.low, shares.high, top)
  const ticks = shares.ticks.map(({ at, label }) => ({ label, y: height(at) }))
  const places = (of: typeof points) => of.map(({ at, share }) => dot(along(at), height(share))).join('')
  return (
    <div className={monthsClass(points.length)}>
      <Plot
        id="audit-run-plot"
        title={title}
        says={says}
        ticks={ticks}
        words={[{ label: `median ${(median * 100).toFixed(1)} %`, y: height(median) }]}
      >
        <Stretched>
          <path className="audit-centre" d={`M0 ${height(median)}H1000`} />
          <path className="audit-through" d={through(points.map(({ at, share }) => [along(at), height(share)]))} />
          <path className="audit-dots" d={places(points)} />
          <path className="audit-hole" d={places(points.filter(({ inRun }) => hollow(inRun)))} />
        </Stretched>
        <PlanChanges months={months} />
        <Run picture={picture} height={height} top={top} />
      </Plot>
      <MonthNames months={months} worded />
    </div>
  )
}

/** Tests done on time, month by month, about their median: has it shifted? */
export function RunChart({ figures, tables = 'behind' }: { readonly figures: Figures; readonly tables?: Tables }) {
  const chart = auditRun(figures)
  return (
    <AuditFigure chart={chart} tables={tables}>
      {(picture) => (
        <>
          <Picture picture={picture} title={`${chart.title} Share done on time, ${figures.from} to ${figures.to}`} says={chart.sentence} />
          <Legend
            of={chart.title}
            signs={[
              {
                words: picture.run === null ? 'share of a month' : 'month of the longest run on one side of the median',
                drawn: <path className="audit-dots" d={dot(0, 0)} />,
              },
              picture.run === null
                ? null
                : {
                    words: 'other month',
                    drawn: (
                      <>
                        <path className="audit-dots" d={dot(0, 0)} />
                        <path className="audit-hole" d={dot(0, 0)} />
                      </>
                    ),
                  },
              { words: 'median of the months', drawn: <path className="audit-centre" d="M-12 0H12" /> },
            ]}
          />
        </>
      )}
    </AuditFigure>
  )
}
