import type { Metadata } from 'next'
import { JoinedRecord, MadeOfRecords, PatientMerges } from '../../_parts/merge/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { PatientPage } from '../../_parts/patient/index.ts'
import { MERGE_ACTS, mergesOfPatient } from '../../_server/mergeActs.ts'
import { patientPage } from '../../_server/pages.ts'
import { patientActs } from '../../_server/patientActs.ts'

// A title stays in the browser's history: it names nobody.
export const metadata: Metadata = { title: 'Patient' }

/** One patient. */
export default async function Page({ params }: { readonly params: Promise<{ address: string }> }) {
  const { address } = await params
  const merges = await mergesOfPatient(address)
  if (merges !== null && merges.joinedTo !== null) return <JoinedRecord merge={merges.joinedTo} end={MERGE_ACTS.end} />
  const outcome = await patientPage(address)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <>
      {merges !== null && <MadeOfRecords merges={merges} />}
      <PatientPage patient={outcome.value} acts={await patientActs()} />
      {merges !== null && <PatientMerges merges={merges} acts={MERGE_ACTS} />}
    </>
  )
}
