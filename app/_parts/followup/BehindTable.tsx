import type { ReactNode } from 'react'
import type { BehindView } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'
import { counted } from '../words.ts'
import { Whose } from './Whose.tsx'

interface Props<R> {
  readonly view: BehindView<R>
  readonly pseudonymous: boolean
  /** What one row is. */
  readonly one: 'test' | 'finding'
  /** In which order they stand. */
  readonly first: 'latest' | 'longest'
  /** What is said where there is none. */
  readonly none: string
  readonly columns: readonly string[]
  readonly keyOf: (row: R) => string
  /** The cells after the patient's. */
  readonly children: (row: R) => ReactNode
}

/** What stands behind a figure of the audit, a row each, with whose it is. */
export function BehindTable<R>({ view: { rows, found, revision }, pseudonymous, one, first, none, columns, keyOf, children }: Props<R>) {
  if (found === 0) return <p className="notice">{none} now. Figures worked out of an earlier revision of the data may count otherwise.</p>
  const whose = rows.map(({ pseudonym, patientId }) => pseudonym ?? patientId)
  return (
    <>
      <p>
        {counted(found, one)} of {counted(new Set(whose).size, 'patient')}
        {rows.length < found && `; the first ${rows.length} are shown`}. The {first} first.
      </p>
      <table className="table stacked">
        <TableHead columns={[pseudonymous ? 'Pseudonym' : 'Patient', ...columns]} />
        <tbody>
          {rows.map((row, at) => (
            <tr key={`${whose[at]} ${keyOf(row)}`}>
              <td>
                <Whose {...row} />
              </td>
              {children(row)}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">
        Revision {revision} of the data: figures worked out of an earlier one may count otherwise. The log keeps whose these are, and who was shown
        them.
      </p>
    </>
  )
}
