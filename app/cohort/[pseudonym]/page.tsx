import type { Metadata } from 'next'
import { NotShown } from '../../_parts/NotShown.tsx'
import { CohortPatientPage } from '../../_parts/patient/index.ts'
import { cohortPatientPage } from '../../_server/pages.ts'

export const metadata: Metadata = { title: 'Patient under a pseudonym' }

/** One patient by pseudonym. */
export default async function Page({ params }: { readonly params: Promise<{ pseudonym: string }> }) {
  const outcome = await cohortPatientPage((await params).pseudonym)
  return outcome.ok ? <CohortPatientPage patient={outcome.value} /> : <NotShown refusal={outcome} />
}
