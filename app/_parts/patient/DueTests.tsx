import type { PatientView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { TableHead } from '../TableHead.tsx'
import { counted, words } from '../words.ts'

/** Which tests are due when, and why. */
export function DueTests({ due, asOf }: Pick<PatientView, 'due' | 'asOf'>) {
  if (due.length === 0) return <p>No test is due.</p>
  return (
    <Scroll className="scroll" named="Table of due tests">
      <table className="table">
        <caption>Due tests as of {asOf}</caption>
        <TableHead columns={['Tests, because', 'Last done', 'Due', 'Grace ends', 'Late']} />
        <tbody>
          {due.map(({ group, lastDoneOn, dueOn, graceEndsOn, daysLate, because }) => (
            <tr key={group}>
              <th scope="row">
                {words(group)}
                <div className="small soft">{because}</div>
              </th>
              <td className="value">{lastDoneOn ?? 'never'}</td>
              <td className="value">{dueOn}</td>
              <td className="value">{graceEndsOn}</td>
              <td className={daysLate > 0 ? 'value late' : 'value'}>{daysLate > 0 ? counted(daysLate, 'day') : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
