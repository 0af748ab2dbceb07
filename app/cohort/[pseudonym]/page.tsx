import type { Metadata } from 'next'
import { type Asked, compareWish } from '../../_parts/look/compareWish.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { CohortPatientPage } from '../../_parts/patient/index.ts'
import { cohortPatientPage } from '../../_server/pages.ts'

export const metadata: Metadata = { title: 'Patient under a pseudonym' }

interface Props {
  readonly params: Promise<{ pseudonym: string }>
  readonly searchParams: Promise<Asked>
}

/** One patient by pseudonym. */
export default async function Page({ params, searchParams }: Props) {
  const outcome = await cohortPatientPage((await params).pseudonym, compareWish(await searchParams))
  return outcome.ok ? <CohortPatientPage patient={outcome.value} /> : <NotShown refusal={outcome} />
}
