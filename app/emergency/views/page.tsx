import type { Metadata } from 'next'
import { Acknowledge, ViewFacts } from '../../_parts/emergency/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { acknowledgeEmergencyView } from '../../_server/emergencyActs.ts'
import { emergencyViewsPage } from '../../_server/pages.ts'

export const metadata: Metadata = { title: 'Emergency views' }

/** Every emergency view for the quality team: those nobody acknowledged first. */
export default async function Page() {
  const outcome = await emergencyViewsPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { waiting, acknowledged } = outcome.value
  return (
    <>
      <h1>Emergency views</h1>
      <p className="soft">
        A physician opened the record of a patient who is no longer followed, with the reason below. You acknowledge that you have looked at it, never
        a view of your own. Patients are told by pseudonym. This look is an entry of the log.
      </p>
      <section aria-labelledby="waiting">
        <h2 id="waiting">Waiting to be acknowledged: {waiting.length}</h2>
        <Acknowledge views={waiting} acknowledge={acknowledgeEmergencyView} />
      </section>
      {acknowledged.length > 0 && (
        <section aria-labelledby="acknowledged">
          <h2 id="acknowledged">Acknowledged</h2>
          <ul className="held">
            {acknowledged.map((view) => (
              <li key={view.emergencyId}>
                <article className="held-row" aria-labelledby={`view-${view.emergencyId}`}>
                  <ViewFacts view={view} />
                </article>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
