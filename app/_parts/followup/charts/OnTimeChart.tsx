import { type LimitStep, type OnTimePicture, onTimeChart } from '../../../../lib/charts/index.ts'
import type { Figures } from '../../../../lib/followup/index.ts'
import { apart } from '../../chart/apart.ts'
import { AuditFigure, type Tables } from './AuditFigure.tsx'
import { changeRows, MonthNames, PlanChanges } from './MonthParts.tsx'
import { OnTimeLegend } from './OnTimeLegend.tsx'
import { Plot, Stretched } from './Plot.tsx'
import { along, FOOT, heightsOf, monthsClass, topBelow } from './places.ts'
import { areas, DIAMOND, dot, stairs, through } from './signPaths.ts'

/** Parts of the axis a label needs where the window is narrow; beyond the other it stands at the left of its point. */
const LABEL_ROOM = 38
const TURNS_AT = 60
const LINE_HEIGHT = 14

type Height = (share: number) => number

function limitPath(steps: readonly LimitStep[], height: Height): string {
  return stairs(steps.map(({ from, to, share }) => ({ from: along(from), to: along(to), y: height(share) })))
}

// From limit to limit; to the edge where no share can lie beyond.
function within({ limits: { low, high } }: OnTimePicture, height: Height, top: number): string {
  const starts = [...new Set([...low, ...high].map(({ from }) => from))]
  const parts = starts.map((from) => {
    const [below, above] = [low.find((one) => one.from === from), high.find((one) => one.from === from)]
    const to = along((below ?? above)?.to ?? from)
    return { from: along(from), to, top: above === undefined ? top : height(above.share), foot: below === undefined ? FOOT : height(below.share) }
  })
  return areas(parts)
}

/** Those of which the label hides no other label. The table names all. */
function labelledOf(points: OnTimePicture['points'], height: Height): ReadonlySet<string> {
  const kept: { readonly label: string; readonly from: number; readonly y: number }[] = []
  for (const { at, share, standsOut, label } of points) {
    const [from, y] = [at > TURNS_AT ? at - LABEL_ROOM : at, height(share)]
    if (standsOut && kept.every((other) => Math.abs(other.from - from) >= LABEL_ROOM || Math.abs(other.y - y) >= LINE_HEIGHT))
      kept.push({ label, from, y })
  }
  return new Set(kept.map(({ label }) => label))
}

function Signals({ picture: { points }, height }: { readonly picture: OnTimePicture; readonly height: Height }) {
  const labelled = labelledOf(points, height)
  return points
    .filter(({ signal }) => signal !== null)
    .map(({ at, share, signal, standsOut, label }) => (
      <g key={label} className={standsOut ? 'audit-signal' : 'audit-signal audit-signal-within'}>
        <title>{`${label}, ${signal} ${standsOut ? 'its limit' : 'the limit of chance alone'}`}</title>
        <svg x={`${at}%`} y={height(share)} overflow="visible" aria-hidden="true">
          <path d={DIAMOND} />
        </svg>
        {labelled.has(label) && (
          <text x={`${at}%`} dx={at > TURNS_AT ? -11 : 11} y={height(share) + 4} textAnchor={at > TURNS_AT ? 'end' : 'start'}>
            {label}
          </text>
        )}
      </g>
    ))
}

const atEnd = ({ to }: LimitStep): boolean => to === 100

function wordsOf({ centre, limits }: OnTimePicture, height: Height, top: number) {
  const ends = [
    { label: `all months ${(centre * 100).toFixed(1)} %`, y: height(centre) },
    ...limits.high.filter(atEnd).map(({ share }) => ({ label: 'upper limit', y: height(share) })),
    ...limits.low.filter(atEnd).map(({ share }) => ({ label: 'lower limit', y: height(share) })),
  ]
  const places = apart(
    ends.map(({ y }) => y),
    LINE_HEIGHT,
    top,
    FOOT,
  )
  return ends.map(({ label }, at) => ({ label, y: places[at] ?? 0 }))
}

function Picture({ picture, title, says }: { readonly picture: OnTimePicture; readonly title: string; readonly says: string }) {
  const { months, shares, points, centre, limits, wide } = picture
  const top = topBelow(changeRows(months))
  const height = heightsOf(shares.low, shares.high, top)
  const ticks = shares.ticks.map(({ at, label }) => ({ label, y: height(at) }))
  const usual = points.filter(({ signal }) => signal === null)
  return (
    <div className={monthsClass(points.length)}>
      <Plot id="audit-on-time-plot" title={title} says={says} ticks={ticks} words={wordsOf(picture, height, top)}>
        <Stretched>
          <path className="audit-within" d={within(picture, height, top)} />
          <path className="audit-wide-limit" d={`${limitPath(wide.low, height)}${limitPath(wide.high, height)}`} />
          <path className="audit-limit" d={`${limitPath(limits.low, height)}${limitPath(limits.high, height)}`} />
          <path className="audit-centre" d={`M0 ${height(centre)}H1000`} />
          <path className="audit-whisker" d={points.map(({ at, low, high }) => `M${along(at)} ${height(high)}V${height(low)}`).join('')} />
          <path className="audit-through" d={through(points.map(({ at, share }) => [along(at), height(share)]))} />
          <path className="audit-dots" d={usual.map(({ at, share }) => dot(along(at), height(share))).join('')} />
        </Stretched>
        <PlanChanges months={months} />
        <Signals picture={picture} height={height} />
      </Plot>
      <MonthNames months={months} worded />
    </div>
  )
}

/** Tests done on time, month by month, each held against what chance alone would make of it. */
export function OnTimeChart({ figures, tables = 'behind' }: { readonly figures: Figures; readonly tables?: Tables }) {
  const chart = onTimeChart(figures)
  return (
    <AuditFigure chart={chart} tables={tables}>
      {(picture) => (
        <>
          <Picture picture={picture} title={`${chart.title}, ${figures.from} to ${figures.to}`} says={chart.sentence} />
          <OnTimeLegend picture={picture} of={chart.title} />
        </>
      )}
    </AuditFigure>
  )
}
