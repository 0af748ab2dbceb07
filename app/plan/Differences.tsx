import type { ProposalView } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'

/** What a version sets otherwise: old and new, nothing else. */
export function Differences({ differences, of }: { readonly differences: ProposalView['differences']; readonly of: string }) {
  if (differences.length === 0) return <p>Nothing is set otherwise.</p>
  return (
    <table className="table stacked">
      <caption>{of}</caption>
      <TableHead columns={['About', 'What', 'Was', 'Becomes']} />
      <tbody>
        {differences.map(({ id, about, asks, was, becomes }) => (
          <tr key={id}>
            <td>{about}</td>
            <td>{asks}</td>
            <td data-label="Was">{was}</td>
            <td data-label="Becomes">
              <b>{becomes}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
