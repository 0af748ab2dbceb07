import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { counted } from '../_parts/words.ts'
import { cohortPage } from '../_server/pages.ts'
import { Export } from '../list/Export.tsx'
import { Filters } from '../list/Filters.tsx'
import { listed } from '../list/listed.ts'
import { packedRows } from '../list/packed.ts'
import type { Given } from '../list/query.ts'
import { Turn } from '../list/Turn.tsx'
import { Windows } from '../list/Windows.tsx'
import { CohortTable } from './CohortTable.tsx'
import { readCohortQuery } from './query.ts'

export const metadata: Metadata = { title: 'Cohort' }

/** The review list under pseudonyms: how the cohort is followed, without who it is. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const query = readCohortQuery(await searchParams)
  const outcome = await cohortPage(query)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const list = outcome.value
  return (
    <>
      <h1>Cohort, {list.asOf}</h1>
      <p className="soft">
        The review list under pseudonyms. {counted(list.followed, 'patient')} followed, plan version {list.planVersion}.
      </p>
      <Windows query={query} byWindow={list.byWindow} followed={list.followed} at="/cohort" />
      <Filters query={query} phases={list.phases} clinicians={list.clinicians} rules={list.rules} at="/cohort" />
      {list.rows.length === 0 ? (
        <p className="notice">{list.followed === 0 ? 'No patient is followed yet.' : 'No followed patient fits what the filters ask for.'}</p>
      ) : (
        <CohortTable packed={packedRows(list.rows.map(listed))} query={query} matching={list.matching} byWindow={list.byWindow} />
      )}
      <Turn query={query} matching={list.matching} at="/cohort" />
      {list.matching > 0 && <Export query={query} matching={list.matching} at="/cohort" />}
    </>
  )
}
