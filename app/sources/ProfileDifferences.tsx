import type { SourcePreview } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'

/** What a profile says otherwise than the one before: old and new, nothing else. */
export function ProfileDifferences({ differences, of }: { readonly differences: SourcePreview['differences']; readonly of: string }) {
  if (differences.length === 0) return <p className="soft">Nothing differs.</p>
  return (
    <table className="table stacked">
      <caption>{of}</caption>
      <TableHead columns={['What', 'Was', 'Becomes']} />
      <tbody>
        {differences.map(({ field, asks, was, becomes }) => (
          <tr key={field}>
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
