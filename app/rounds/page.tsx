import type { Metadata } from 'next'
import Link from 'next/link'
import { NotShown } from '../_parts/NotShown.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { roundsPage } from '../_server/pages.ts'
import './rounds.css'

export const metadata: Metadata = { title: 'Rounds' }

/** Every round of the clinic, the latest first, each the way to its summary. */
export default async function Page() {
  const outcome = await roundsPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const rounds = outcome.value
  return (
    <>
      <h1>Rounds of the review list</h1>
      {rounds.length === 0 ? (
        <p className="notice">
          No round was ever started. A round is started on the <Link href="/list">review list</Link>; when it ends, the next one knows what is new.
        </p>
      ) : (
        <table className="table stacked">
          <TableHead columns={['Round', 'Started', 'Ended', 'Patients answered', 'Open at the end']} />
          <tbody>
            {rounds.map(({ roundId, started, startedBy, ended, endedBy, answeredPatients, open, followed }) => (
              <tr key={roundId}>
                <td data-label="Round">
                  <Link href={`/rounds/${roundId}`} prefetch={false}>
                    Round {roundId}
                  </Link>
                </td>
                <td data-label="Started">
                  {started} by <bdi>{startedBy}</bdi>
                </td>
                <td data-label="Ended">
                  {ended === null ? (
                    'runs still'
                  ) : (
                    <>
                      {ended} by <bdi>{endedBy}</bdi>
                    </>
                  )}
                </td>
                <td data-label="Patients answered">{answeredPatients}</td>
                <td data-label="Open at the end">{open === null ? 'not ended' : `${open} of ${followed}`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
