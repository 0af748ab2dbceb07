import type { Metadata } from 'next'
import { EmptySentence } from '../_parts/EmptySentence.tsx'
import { MergesInForce, PastMerges, WaitingMerges } from '../_parts/merge/index.ts'
import '../_parts/merge/merge.css'
import { NotShown } from '../_parts/NotShown.tsx'
import { MERGE_ACTS } from '../_server/mergeActs.ts'
import { mergesPage } from '../_server/pages.ts'

export const metadata: Metadata = { title: 'Merges' }

/** Records proposed to be of one person, for a second person to confirm; those that are joined; and those that were. */
export default async function Page() {
  const outcome = await mergesPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { waiting, inForce, past } = outcome.value
  return (
    <div className="merges">
      <h1>Merges</h1>
      <p className="soft">
        Two records of one person, read as one patient. One person proposes it on the patient's page, somebody else confirms it here. Nothing stored
        is changed by it, so ending it gives both records back as they were.
      </p>
      <section aria-labelledby="waiting">
        <h2 id="waiting">Waiting for a second person</h2>
        <WaitingMerges merges={waiting} acts={{ confirm: MERGE_ACTS.confirm, decline: MERGE_ACTS.decline }} />
      </section>
      <section aria-labelledby="in-force">
        <h2 id="in-force">Joined now</h2>
        {inForce.length === 0 && <EmptySentence says="No records are joined." />}
        <MergesInForce merges={inForce} end={MERGE_ACTS.end} />
      </section>
      {past.length > 0 && (
        <section aria-labelledby="past">
          <h2 id="past">Past</h2>
          <details>
            <summary>{past.length} declined or ended</summary>
            <PastMerges merges={past} />
          </details>
        </section>
      )}
    </div>
  )
}
