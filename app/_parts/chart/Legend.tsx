import type { ChartPlan } from '../../../lib/charts/index.ts'

function Sign({ d, className }: { readonly d: string; readonly className: string }) {
  return (
    <svg width="22" height="14" viewBox="0 0 22 14" aria-hidden="true">
      <path className={className} d={d} />
    </svg>
  )
}

const DOT = 'M8 7a3 3 0 1 0 6 0a3 3 0 1 0 -6 0'

/** How to read the pictures: only the signs that occur in them, in words. */
export function Legend({ charts, laboratory }: { readonly charts: readonly ChartPlan[]; readonly laboratory: string | null }) {
  const points = charts.flatMap(({ series }) => series.flatMap((one) => one.points))
  const has = (kind: string) => charts.some(({ marks }) => marks.some((mark) => mark.kind === kind))
  const named = (name: string | null) => name ?? 'laboratory not named'
  const others = [...new Set(points.map((point) => point.laboratory))].filter((name) => name !== laboratory).map(named)
  const broken = charts.some(({ series }) => series.some(({ breaks }) => breaks.length > 0))
  return (
    <ul className="legend" aria-label="How to read the charts">
      {has('lowest') && (
        <li className="mark-lowest">
          <Sign className="level" d="M3 5H22M3 5v6m-3 0h6" /> lowest value, from the day it was set
        </li>
      )}
      {has('criterion') && (
        <li className="mark-criterion">
          <Sign className="level" d="M0 7H22" /> criterion
        </li>
      )}
      {has('limit') && (
        <li className="mark-limit">
          <Sign className="level" d="M0 7H22" /> other limit
        </li>
      )}
      {charts.some(({ trends = [] }) => trends.some(({ curve }) => curve.length > 0)) && (
        <li className="trend-curve">
          <Sign className="trend-line" d="M0 7H22" /> trend of the last 12 months, shaded: its 95 % interval
        </li>
      )}
      {points.some((point) => point.censored !== null) && (
        <li className="series">
          <Sign className="open" d={`${DOT}M11 10v4`} /> known only as a limit (&lt; or &gt;), the stroke points to where it lies
        </li>
      )}
      {points.some((point) => point.corrected) && (
        <li className="series">
          <Sign className="rings" d="M5 7a6 6 0 1 0 12 0a6 6 0 1 0 -12 0" /> corrected report
        </li>
      )}
      {broken && (
        <li className="breaks">
          <Sign className="change" d="M11 0V14" /> line interrupted: laboratory or method changed
        </li>
      )}
      {others.length > 0 && (
        <li className="series">
          <Sign className="filled" d={DOT} /> filled: {named(laboratory)} <Sign className="hollow" d={DOT} /> hollow: {others.join(', ')}
        </li>
      )}
    </ul>
  )
}
