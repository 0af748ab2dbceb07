import { scaleLinear } from '@visx/scale'
import type { NeighboursView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'

const WIDTH = 320
const HEIGHT = 150
const LEFT = 48
const RIGHT = 24
const TOP = 16
const BOTTOM = 26

const DAY_MS = 86_400_000

/** Where the held value would stand among the others: a small picture; the table beside it says the same. Nothing where fewer than two are numbers. */
export function NeighbourPlot({ near: { analyte, unit, values } }: { readonly near: NeighboursView }) {
  const points = values.flatMap(({ resultId, on, number, isHeld }) =>
    number === null ? [] : [{ resultId, at: Date.parse(on) / DAY_MS, on, number, isHeld }],
  )
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined || points.length < 2) return null
  const numbers = points.map(({ number }) => number)
  const x = scaleLinear({ domain: [first.at, Math.max(last.at, first.at + 1)], range: [LEFT, WIDTH - RIGHT] })
  const y = scaleLinear({ domain: [Math.min(0, ...numbers), Math.max(...numbers)], range: [HEIGHT - BOTTOM, TOP], nice: true })
  const others = points.filter(({ isHeld }) => !isHeld)
  const own = points.find(({ isHeld }) => isHeld)
  const says = `${testName(analyte)} from ${first.on} to ${last.on}${own === undefined ? '' : `; this row, ${own.number} ${unit} on ${own.on}, is the diamond`}`
  return (
    <svg className="held-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={says}>
      <title>{says}</title>
      {y.ticks(4).map((tick) => (
        <g key={tick}>
          <path className="held-grid" d={`M${LEFT} ${y(tick)}H${WIDTH - RIGHT}`} />
          <text x={LEFT - 6} y={y(tick)} dy="0.32em" textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      <path className="held-line" d={`M${others.map(({ at, number }) => `${x(at)} ${y(number)}`).join('L')}`} />
      {others.map(({ resultId, at, number }) => (
        <circle key={resultId} className="held-dot" cx={x(at)} cy={y(number)} r={3.5} />
      ))}
      {own !== undefined && <path className="held-diamond" d={`M${x(own.at)} ${y(own.number)}m-6 0l6 -6l6 6l-6 6z`} />}
      <text x={LEFT} y={HEIGHT - 6}>
        {first.on}
      </text>
      <text x={WIDTH - RIGHT} y={HEIGHT - 6} textAnchor="end">
        {last.on}
      </text>
    </svg>
  )
}
