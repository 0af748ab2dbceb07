import type { TrailRowView } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText, words } from '../_parts/words.ts'
import { Concerned } from './Concerned.tsx'

/** Entries of the log as a table, latest first. */
export function LogRows({ rows }: { readonly rows: readonly TrailRowView[] }) {
  return (
    <table className="table stacked">
      <TableHead columns={['Number', 'When', 'Who', 'Role', 'Address', 'Action', 'Outcome', 'What']} />
      <tbody>
        {rows.map((row) => (
          <tr key={row.sequence}>
            <td className="number">{row.sequence}</td>
            <td>{instantText(row.at)}</td>
            <td data-label="Who">
              <bdi>{row.actor}</bdi>
            </td>
            <td data-label="Role">{row.role}</td>
            <td data-label="Address">{row.address ?? 'this machine'}</td>
            <td data-label="Action">{words(row.action)}</td>
            <td data-label="Outcome">{row.outcome}</td>
            <td>
              <bdi>{row.says}</bdi>
              <Concerned row={row} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
