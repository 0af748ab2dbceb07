'use client'

import type { WaitingKind } from '../../../lib/followup/index.ts'
import type { WaitingView } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'
import { counted, words } from '../words.ts'
import { Found } from './Found.tsx'
import { Whose } from './Whose.tsx'

interface Props {
  readonly asked: Readonly<Record<string, string>>
  readonly what: WaitingKind
  readonly pseudonymous: boolean
}

const COLUMNS: Readonly<Record<WaitingKind, readonly [what: string, since: string, until: string, days: string]>> = {
  overdue: ['Test', 'Due', 'Overdue on', 'Days past due'],
  unanswered: ['Finding', 'First shown', 'Watched until', 'Days without an answer'],
  'no-second': ['Finding', 'First shown', 'Watched until', 'Days without a second sample'],
}

function WaitingTable({ view, what, pseudonymous }: { readonly view: WaitingView } & Omit<Props, 'asked'>) {
  const { rows, found, revision } = view
  const people = new Set(rows.map(({ patientId, pseudonym }) => pseudonym ?? patientId)).size
  if (found === 0) return <p className="notice">Nothing waits here any more: the data have changed since the figures were worked out.</p>
  const [thing, since, until, days] = COLUMNS[what]
  return (
    <>
      <p>
        {counted(found, what === 'overdue' ? 'test' : 'finding')} of {counted(people, 'patient')}
        {rows.length < found && `; the first ${rows.length} are shown`}. The longest first.
      </p>
      <table className="table stacked">
        <TableHead columns={[pseudonymous ? 'Pseudonym' : 'Patient', thing, since, until, days]} />
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.pseudonym ?? row.patientId} ${row.what} ${row.since}`}>
              <td>
                <Whose {...row} />
              </td>
              <td data-label={thing}>{what === 'overdue' ? words(row.what) : row.what}</td>
              <td data-label={since}>{row.since}</td>
              <td data-label={until}>{row.until}</td>
              <td data-label={days}>
                <b>{row.days}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">Revision {revision} of the data. The log keeps whose these are, and who was shown them.</p>
    </>
  )
}

/** What waits behind a figure of the audit: whose it is, and how long. */
export function Waits({ asked, what, pseudonymous }: Props) {
  return (
    <Found<WaitingView> at="/follow-up/waiting/work" asked={asked} says="Finding what waits needs JavaScript.">
      {(view) => <WaitingTable view={view} what={what} pseudonymous={pseudonymous} />}
    </Found>
  )
}
