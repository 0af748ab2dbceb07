import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptySentence } from '../_parts/EmptySentence.tsx'
import { NotShown } from '../_parts/NotShown.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText } from '../_parts/words.ts'
import { isInvented } from '../_server/invented.ts'
import { intakePage, sourcesPage } from '../_server/pages.ts'
import { IntakeForm } from './IntakeForm.tsx'
import { kindOf } from './kindOf.ts'

export const metadata: Metadata = { title: 'Intake' }

/** Files come in here; every row is accounted for. */
export default async function Page() {
  const outcome = await intakePage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const sources = await sourcesPage()
  return (
    <>
      <h1>Intake</h1>
      <p className="soft">
        Every row is accounted for: filed, already known, corrected, held for a person, or refused with its reason. Nothing is guessed.
      </p>
      {(await isInvented()) && <p className="notice">This is the demonstration: never send files about real people here.</p>}
      <IntakeForm sources={sources.ok ? sources.value : []} />
      <h2>Files received</h2>
      {outcome.value.length === 0 ? (
        <EmptySentence says="No file yet." next="Choose one above; to try it files nothing." />
      ) : (
        <table className="table stacked">
          <TableHead columns={['Received', 'File', 'Kind', 'Rows', 'Held', 'Refused', 'By']} figures={['Rows', 'Held', 'Refused']} />
          <tbody>
            {outcome.value.map((report) => (
              <tr key={report.fileId}>
                <td>{instantText(report.receivedAt)}</td>
                <td>
                  <Link href={`/intake/${report.fileId}`} prefetch={false}>
                    <bdi>{report.fileName}</bdi>
                  </Link>
                </td>
                <td data-label="Kind">{kindOf(report)}</td>
                <td className="number" data-label="Rows">
                  {report.rows}
                </td>
                <td className="number" data-label="Held">
                  {report.held}
                </td>
                <td className="number" data-label="Refused">
                  {report.refused}
                </td>
                <td data-label="By">
                  <bdi>{report.receivedBy}</bdi>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
