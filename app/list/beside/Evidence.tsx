import { unitWords } from '../../../lib/units/inBrowser.ts'
import type { BesideFinding } from '../../../lib/usecases/index.ts'
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
        {inOrder.map(({ role, analyte, comparator, value, unit, collectedOn }) => (
          <tr key={`${role} ${analyte} ${collectedOn}`}>
            <th scope="row">
              {testName(analyte)}, {ROLES[role]}
            </th>
            <td>
              {comparator}
              {value} {/^\d/.test(value) ? unitWords(unit) : ''}
            </td>
            <td>{collectedOn}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
