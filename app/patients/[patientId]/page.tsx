import type { Metadata } from 'next'
import { NotShown } from '../../_parts/NotShown.tsx'
import { PatientPage } from '../../_parts/patient/index.ts'
import { patientPage } from '../../_server/pages.ts'
import { patientActs } from '../../_server/patientActs.ts'

// A title stays in the browser's history: it names nobody.
export const metadata: Metadata = { title: 'Patient' }

/** One patient, by identifier. */
export default async function Page({ params }: { readonly params: Promise<{ patientId: string }> }) {
  const { patientId } = await params
  const outcome = await patientPage(decodeURIComponent(patientId))
  return outcome.ok ? <PatientPage patient={outcome.value} acts={await patientActs()} /> : <NotShown refusal={outcome} />
}
