import type { ChartPlan } from '../../../lib/charts/index.ts'
import { NARROW, WIDE } from './frame.ts'
import { LETTERS } from './Marks.tsx'
import { Plot } from './Plot.tsx'
import { Scroll } from './Scroll.tsx'
import { TrendTable } from './TrendTable.tsx'

function ValueTable({ title, table: { columns, rows } }: ChartPlan) {
  return (
    <table className="table">
      <caption>{title}: every sample, newest first</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th scope="col" key={column}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([on = '', ...cells]) => (
          <tr key={on}>
            <th scope="row">{on}</th>
            {cells.map((cell, at) => (
              <td key={columns[at + 1]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function MarkTable({ title, marks }: ChartPlan) {
  return (
    <table className="table">
      <caption>{title}: marks in the picture</caption>
      <thead>
        <tr>
          <th scope="col">Mark</th>
          <th scope="col">Drawn from</th>
        </tr>
      </thead>
      <tbody>
        {marks.map(({ label, from }) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td>{from}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** One chart: heading, picture, sentence, and its tables. Without a result it is a sentence and no picture. */
export function ChartFigure({ plan, laboratory }: { readonly plan: ChartPlan; readonly laboratory: string | null }) {
  const drawn = plan.series.some(({ points }) => points.length > 0)
  const recorded = plan.table.rows.length > 0
  return (
    <section className="chart" aria-labelledby={`${plan.id}-heading`}>
      <h3 id={`${plan.id}-heading`}>
        {plan.title} <span className="soft small">{plan.scale === 'log' ? `${plan.unit}, logarithmic` : plan.unit}</span>
      </h3>
      {drawn && (
        <>
          <Plot plan={plan} size={WIDE} laboratory={laboratory} />
          <Plot plan={plan} size={NARROW} laboratory={laboratory} />
          {plan.marks.length > 0 && (
            <ul className="letters">
              {plan.marks.map(({ label, kind }, at) => (
                <li key={label} className={`mark-${kind}`}>
                  <b>{LETTERS[at]}</b> {label}
                </li>
              ))}
            </ul>
          )}
        </>
      )}
      <p className="chart-says">{plan.sentence}</p>
      {plan.trends !== undefined && <TrendTable title={plan.title} trends={plan.trends} />}
      {recorded && (
        <details>
          <summary>Table: {plan.title}</summary>
          <Scroll className="chart-tables" named={`Tables of ${plan.title}`}>
            <ValueTable {...plan} />
            {plan.marks.length > 0 && drawn && <MarkTable {...plan} />}
          </Scroll>
        </details>
      )}
    </section>
  )
}
