import type { BesideFinding } from '../../../lib/usecases/index.ts'
import { evidenceText } from '../../_parts/evidenceText.ts'
import { testName } from '../../_parts/patient/names.ts'

const ROLES = { current: 'last', previous: 'before', reference: 'held against' } as const
const ORDER = ['current', 'previous', 'reference'] as const

/** The values a finding rests on, in a line each: the last one first, then what it is held against, each with its day. */
export function Evidence({ evidence, of }: Pick<BesideFinding, 'evidence'> & { readonly of: string }) {
  if (evidence.length === 0) return null
  const inOrder = evidence.toSorted((a, b) => ORDER.indexOf(a.role) - ORDER.indexOf(b.role))
  return (
    <table className="beside-evidence">
      <caption className="sr-only">Evidence of {of}</caption>
      <tbody>
        {inOrder.map((piece) => (
          <tr key={`${piece.role} ${piece.analyte} ${piece.collectedOn}`}>
            <th scope="row">
              {testName(piece.analyte)}, {ROLES[piece.role]}
            </th>
            <td>{evidenceText(piece)}</td>
            <td>{piece.collectedOn}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
