import type { LookView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { TableHead } from '../TableHead.tsx'

/** Each factor of a model: value, day, what is asked of it, whether it is met, and the points it gives. */
export function RiskParts({ name, parts }: { readonly name: string; readonly parts: LookView['risk'][number]['parts'] }) {
  if (parts.length === 0) return null
  const hasPoints = parts.some(({ points }) => points !== null)
  return (
    <Scroll className="scroll" named={`Parts of ${name}`}>
      <table className="table look-parts">
        <caption>Parts of {name}</caption>
        <TableHead columns={['Input', 'Value', 'Of', 'Counts when', 'Is', ...(hasPoints ? ['Points'] : [])]} />
        <tbody>
          {parts.map(({ input, value, on, threshold, met, points }) => (
            <tr key={`${input} ${threshold}`}>
              <th scope="row">{input}</th>
              <td>{value ?? 'not known'}</td>
              <td className="value">{on ?? ''}</td>
              <td>{threshold}</td>
              <td>{met}</td>
              {hasPoints && <td className="value">{points ?? 'not known'}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
