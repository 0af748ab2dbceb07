import type { Trend } from '../../../lib/charts/index.ts'
import { Scroll } from './Scroll.tsx'
import './trend.css'

type Row = readonly [name: string, of: (trend: Trend) => string]

const ROWS: readonly Row[] = [
  ['Samples', ({ samples, from, to }) => (samples === 0 ? '0' : `${samples}, ${from} to ${to}`)],
  ['Change in 30 days, log-linear fit', ({ change }) => change],
  ['Doubling time of the fit', ({ doubling }) => doubling],
  ['Change in 30 days, Theil-Sen (robust)', ({ robust }) => robust],
  ['Direction, Mann-Kendall', ({ direction }) => direction],
]
/** Below three samples the first row and the caution say everything. */
const FEWEST = 3

/** Fit, doubling time, robust slope and direction of a chart's markers in words, with what to hold against them. */
export function TrendTable({ title, trends }: { readonly title: string; readonly trends: readonly Trend[] }) {
  const rows = trends.some(({ samples }) => samples >= FEWEST) ? ROWS : ROWS.slice(0, 1)
  const cautions = [...new Set(trends.flatMap((trend) => trend.cautions))].map((caution) => {
    const names = trends.filter((trend) => trend.cautions.includes(caution)).map(({ name }) => name)
    return { caution, of: names.length === trends.length ? '' : `, ${names.join(', ')}` }
  })
  return (
    <>
      <Scroll className="trend" named={`Trend of ${title}`}>
        <table className="table">
          <caption>{title}: trend of the last 12 months up to the latest sample</caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              {trends.map(({ name }) => (
                <th scope="col" key={name}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(([row, of]) => (
              <tr key={row}>
                <th scope="row">{row}</th>
                {trends.map((trend) => (
                  <td key={trend.name}>{of(trend)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {cautions.length > 0 && (
        <ul className="cautions trend-cautions" aria-label={`What to hold against the trend of ${title}`}>
          {cautions.map(({ caution, of }) => (
            <li key={caution}>
              <b>Caution{of}:</b> {caution}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
