import { type Figures, MEASURE_TEXTS } from '../../../lib/followup/index.ts'
import { TableHead } from '../TableHead.tsx'
import { moreOrFewer, percent } from './numbers.ts'

interface Props {
  readonly figures: Figures
  /** The same period under the other version. */
  readonly whatIf: Figures
  readonly version: string
}

const FIGURES = ['Due', 'On time', 'Late', 'Missed', 'Share on time']

/** The same period as if one version of the plan had always been in force. */
export function OtherPlan({ figures: { onTime: was }, whatIf: { onTime: would }, version }: Props) {
  const rows = [
    { name: 'Plans as they were in force', ...was },
    { name: `Version ${version} all along`, ...would },
  ]
  return (
    <section aria-labelledby="other-plan">
      <h2 id="other-plan">If version {version} had been in force all along</h2>
      <p>
        <b>
          Tests due: {moreOrFewer(would.due - was.due)}. Late or missed: {moreOrFewer(would.late + would.missed - was.late - was.missed)}.
        </b>
      </p>
      <table className="table stacked">
        <TableHead columns={['Plan', ...FIGURES]} figures={FIGURES} />
        <tbody>
          {rows.map(({ name, due, onTime, late, missed, proportion }) => (
            <tr key={name}>
              <td>
                <b>{name}</b>
              </td>
              {[due, onTime, late, missed, proportion === null ? '-' : percent(proportion)].map((value, at) => (
                <td className="number" key={FIGURES[at]} data-label={FIGURES[at]}>
                  {value}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="soft">{MEASURE_TEXTS['other-plan'].says}</p>
    </section>
  )
}
