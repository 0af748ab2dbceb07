import type { LogAnswer } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText, words } from '../_parts/words.ts'

/** Who failed at what and from where, most often first. */
export function Failures({ failures }: { readonly failures: LogAnswer['failures'] }) {
  if (failures.length === 0) return null
  return (
    <table className="table stacked">
      <caption>By person, address and action</caption>
      <TableHead columns={['Who', 'Address', 'Action', 'How often', 'Last']} />
      <tbody>
        {failures.map(({ actor, address, action, count, lastAt }) => (
          <tr key={`${actor} ${address} ${action}`}>
            <td>
              <bdi>{actor}</bdi>
            </td>
            <td data-label="Address">{address ?? 'this machine'}</td>
            <td data-label="Action">{words(action)}</td>
            <td data-label="How often">{count}</td>
            <td data-label="Last">{instantText(lastAt)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
