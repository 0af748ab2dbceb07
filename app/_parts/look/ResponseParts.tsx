import type { LookView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { TableHead } from '../TableHead.tsx'

/** What the response rests on: each part with its values, its fall and what it says of each category, and what a complete response asks. */
export function ResponseParts({ response }: Pick<LookView, 'response'>) {
  if (response === null) return null
  const { falls, complete, progressed } = response
  return (
    <>
      <Scroll className="scroll" named="Parts of the response">
        <table className="table look-parts">
          <caption>Parts of the response, from the baseline of the line</caption>
          <TableHead columns={['Part', 'Baseline', 'Now', 'Fall', 'VGPR', 'PR', 'MR']} />
          <tbody>
            {falls.map(({ part, baseline, current, fall, says }) => (
              <tr key={part}>
                <th scope="row">{part}</th>
                <td>{baseline ?? 'none'}</td>
                <td>{current ?? 'none since'}</td>
                <td className="value">{fall === null ? 'cannot be told' : `${fall} %`}</td>
                <td>{says.VGPR}</td>
                <td>{says.PR}</td>
                <td>{says.MR}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="small">
        Complete response asks: {complete.map(({ asks, is }) => `${asks} (${is})`).join('; ')}.{progressed && ' Progression outweighs every part.'}
      </p>
    </>
  )
}
