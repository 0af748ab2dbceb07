import type { Metadata } from 'next'
import { Band } from '../../../_parts/emergency/index.ts'
import { NotShown } from '../../../_parts/NotShown.tsx'
import { PaperSummary } from '../../../_parts/paper/index.ts'
import { PaperHead } from '../../../_parts/paper/PaperHead.tsx'
import { endEmergencyView } from '../../../_server/emergencyActs.ts'
import { paperPatientPage } from '../../../_server/pages.ts'

// A title stays in the browser's history: it names nobody.
export const metadata: Metadata = { title: 'Summary for a letter' }

/** One patient on paper. */
export default async function Page({ params }: { readonly params: Promise<{ address: string }> }) {
  const { address } = await params
  const outcome = await paperPatientPage(address)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { emergency } = outcome.value
  return (
    <>
      {emergency !== null && <Band view={emergency} end={endEmergencyView} />}
      <PaperHead back={`/patients/${address}`} says="Back to the patient" />
      <PaperSummary patient={outcome.value} />
    </>
  )
}
