import type { ChartPlan } from '../../../lib/charts/index.ts'
import { ChartFigure } from './ChartFigure.tsx'
import { Legend } from './Legend.tsx'
import { mainLaboratory } from './mainLaboratory.ts'
import './chart.css'

/** All charts of one patient, one above the other on one time axis. Stands under a heading of level 2. */
export function PatientCharts({ charts }: { readonly charts: readonly ChartPlan[] }) {
  const laboratory = mainLaboratory(charts)
  const bands = charts[0]?.bands ?? []
  return (
    <div className="charts">
      <Legend charts={charts} laboratory={laboratory} />
      {bands.length > 0 && (
        <ul className="band-list" aria-label="Treatment lines, shaded in every chart">
          {bands.map(({ label, from, to }) => (
            <li key={label}>
              {label}, {from} to {to}
            </li>
          ))}
        </ul>
      )}
      {charts.map((plan) => (
        <ChartFigure key={plan.id} plan={plan} laboratory={laboratory} />
      ))}
    </div>
  )
}
