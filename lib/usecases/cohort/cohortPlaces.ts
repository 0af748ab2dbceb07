import type { StandingOnList } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicianUnder } from '../list/clinicianKey.ts'
import { type Cohort, cohortByPseudonym } from '../pseudonyms/cohortByPseudonym.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import type { CohortQuery } from './views.ts'

/** The list under pseudonyms as an address asks for it, all its pages, and what stands for each number. Writes no entry. */
export async function cohortPlaces(
  call: Call,
  query: Omit<CohortQuery, 'page' | 'pageSize'>,
): Promise<Outcome<{ readonly places: readonly StandingOnList[]; readonly cohort: Cohort }>> {
  await renewStandings(call)
  const { reader } = call.store
  const cohort = cohortByPseudonym(call)
  if (!cohort.ok) return cohort
  const places = reader.atOnce(() => {
    const { followed, clinicians } = reader.listFacets()
    const clinician = clinicianUnder(clinicians, query.clinician)
    return reader.standingsPage({ ...query, clinician, comesBackTo: null, patientId: null, page: 1, pageSize: Math.max(followed, 1) }).rows
  })
  return { ok: true, value: { places, cohort: cohort.value } }
}
