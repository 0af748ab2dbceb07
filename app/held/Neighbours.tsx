import type { NeighboursView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { NeighbourPlot } from './NeighbourPlot.tsx'

/** The patient's values of the same test before and after a held row, with the row where it would stand. */
export function Neighbours({ near, inCard = false }: { readonly near: NeighboursView; readonly inCard?: boolean }) {
  const { analyte, unit, values } = near
  const Heading = inCard ? 'h4' : 'h2'
  return (
    <section aria-label="Beside the patient's own values">
      <Heading>Beside the patient's own values</Heading>
      <div className="held-two">
        <table className="table held-near">
          <TableHead columns={['Collected', `${testName(analyte)} (${unit === '' ? 'no unit' : unit})`, 'Printed']} />
          <tbody>
            {values.map(({ resultId, on, says, printed, isHeld }) => (
              <tr key={resultId ?? 'held'} className={isHeld ? 'held-own' : ''}>
                <th scope="row">
                  {on}
                  {isHeld && ', this row'}
                </th>
                <td>{says}</td>
                <td>
                  <span className="received">{printed}</span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <NeighbourPlot near={near} />
      </div>
      {values.length === 1 && <p className="soft">The patient has no other value of this test.</p>}
    </section>
  )
}
