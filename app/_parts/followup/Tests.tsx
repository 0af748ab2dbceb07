'use client'

import type { OccasionRow, OccasionsView } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'
import { counted, words } from '../words.ts'
import { Found } from './Found.tsx'
import { Whose } from './Whose.tsx'

interface Props {
  /** The fields the answer is asked with: period, by what told apart, which row, which verdict. */
  readonly asked: Readonly<Record<string, string>>
  readonly pseudonymous: boolean
}

const COLUMNS = ['Test', 'Due', 'Grace ended', 'Done', 'What happened', 'Phase', 'Plan']

function happened({ verdict, daysLate }: OccasionRow): string {
  return verdict === 'late' ? `late by ${counted(daysLate, 'day')}` : words(verdict)
}

function TestsTable({ view, pseudonymous }: { readonly view: OccasionsView; readonly pseudonymous: boolean }) {
  const { rows, found } = view
  const people = new Set(rows.map(({ patientId, pseudonym }) => pseudonym ?? patientId)).size
  if (found === 0) return <p className="notice">No test fits this any more: the data have changed since the figures were worked out.</p>
  return (
    <>
      <p>
        {counted(found, 'test')} of {counted(people, 'patient')}
        {rows.length < found && `; the first ${rows.length} are shown`}. The latest first.
      </p>
      <table className="table stacked">
        <TableHead columns={[pseudonymous ? 'Pseudonym' : 'Patient', ...COLUMNS]} />
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.pseudonym ?? row.patientId} ${row.group} ${row.dueOn}`}>
              <td>
                <Whose {...row} />
              </td>
              <td data-label="Test">{words(row.group)}</td>
              <td data-label="Due">{row.dueOn}</td>
              <td data-label="Grace ended">{row.graceEndsOn}</td>
              <td data-label="Done">{row.doneOn ?? 'not done'}</td>
              <td data-label="What happened">
                <b>{happened(row)}</b>
              </td>
              <td data-label="Phase">{row.phase === null ? 'not recorded' : words(row.phase)}</td>
              <td data-label="Plan">version {row.planVersion}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">Revision {view.revision} of the data. The log keeps whose these are, and who was shown them.</p>
    </>
  )
}

/** The tests behind a row of the audit. */
export function Tests({ asked, pseudonymous }: Props) {
  return (
    <Found<OccasionsView> at="/follow-up/tests/work" asked={asked} says="Finding the tests needs JavaScript.">
      {(view) => <TestsTable view={view} pseudonymous={pseudonymous} />}
    </Found>
  )
}
