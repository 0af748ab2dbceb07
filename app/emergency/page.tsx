import type { Metadata } from 'next'
import { OpenForm } from '../_parts/emergency/index.ts'
import { PatientLink } from '../_parts/merge/PatientLink.tsx'
import { NotShown } from '../_parts/NotShown.tsx'
import { openClosedRecord } from '../_server/emergencyActs.ts'
import { emergencyPage } from '../_server/pages.ts'

export const metadata: Metadata = { title: 'Emergency view' }

/** Where a physician opens a closed record by its number, and finds those that are open. */
export default async function Page() {
  const outcome = await emergencyPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <section className="narrow">
      <h1>Emergency view</h1>
      <p>
        Opens the record of a patient who is no longer followed, for 60 minutes, in this session, for reading only. Every such view is shown to the
        quality team, with your reason.
      </p>
      {outcome.value.length > 0 && (
        <>
          <h2>Open now</h2>
          <ul>
            {outcome.value.map(({ emergencyId, patientId, address, until, reason }) => (
              <li key={emergencyId}>
                <PatientLink id={patientId} address={address} />, until {until} - <bdi>{reason}</bdi>
              </li>
            ))}
          </ul>
        </>
      )}
      <h2>Open a closed record</h2>
      <OpenForm open={openClosedRecord} address={null} />
    </section>
  )
}
