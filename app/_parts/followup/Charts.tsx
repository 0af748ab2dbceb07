import type { Figures } from '../../../lib/followup/index.ts'
import type { AuditChartName } from '../../../lib/usecases/index.ts'
import { type AskedFields, chartAddress } from './address.ts'
import { LatenessChart, OnTimeChart, RunChart, WaitChart } from './charts/index.ts'

interface Props {
  readonly figures: Figures
  /** Null on paper: each table stands beside its picture then, and there is no file to save. */
  readonly asked: AskedFields | null
}

const FILES: Readonly<Record<AuditChartName, string>> = {
  'on-time': 'months',
  run: 'shift',
  review: 'days to review',
  second: 'days to the second sample',
  lateness: 'lateness',
}

/** The pictures of the audit, in the order of its measures. */
export function Charts({ figures, asked }: Props) {
  const tables = asked === null ? 'beside' : 'behind'
  return (
    <section aria-labelledby="charts">
      <h2 id="charts">Over the period</h2>
      <div className="followup-charts">
        <OnTimeChart figures={figures} tables={tables} />
        <RunChart figures={figures} tables={tables} />
        <LatenessChart figures={figures} tables={tables} />
        <WaitChart figures={figures} of="review" tables={tables} />
        <WaitChart figures={figures} of="second" tables={tables} />
      </div>
      {asked !== null && (
        <form className="exports no-print" method="post" action={chartAddress(asked, 'on-time')}>
          <span className="small soft">Charts as CSV:</span>
          {Object.entries(FILES).map(([chart, says]) => (
            <button className="button button-quiet" type="submit" key={chart} formAction={chartAddress(asked, chart as AuditChartName)}>
              {says}
            </button>
          ))}
        </form>
      )}
    </section>
  )
}
