import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { counted } from '../_parts/words.ts'
import { answerTogether, takeBackBeside } from '../_server/answerActs.ts'
import { listPage } from '../_server/pages.ts'
import { keepView, removeKeptView } from '../_server/roundActs.ts'
import { WorkList } from './beside/WorkList.tsx'
import { Export } from './Export.tsx'
import { Filters } from './Filters.tsx'
import { listed } from './listed.ts'
import { packedRows } from './packed.ts'
import { type Given, readQuery } from './query.ts'
import { RoundBar } from './round/RoundBar.tsx'
import { RoundFields } from './round/RoundFields.tsx'
import { RoundWays } from './round/RoundWays.tsx'
import { SavedViews } from './round/SavedViews.tsx'
import { Turn } from './Turn.tsx'
import { Windows } from './Windows.tsx'
import './round/round.css'

export const metadata: Metadata = { title: 'Review list' }

/** The review list: whom to look at, how soon, and why. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const query = readQuery(await searchParams)
  const outcome = await listPage(query)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const list = outcome.value
  return (
    <>
      <h1>Review list, {list.asOf}</h1>
      {list.rows.length > 0 && (
        <a className="skip" href="#patients">
          To the patients
        </a>
      )}
      <p className="soft">
        {counted(list.followed, 'patient')} followed, plan version {list.planVersion}.
      </p>
      <RoundBar round={list.round} />
      <Windows query={query} byWindow={list.byWindow} followed={list.followed} />
      <RoundWays round={list.round} query={query} />
      <SavedViews views={list.round.views} query={query} keep={keepView} remove={removeKeptView} />
      <Filters query={query} phases={list.phases} clinicians={list.clinicians} rules={list.rules}>
        <RoundFields round={list.round} query={query} />
      </Filters>
      {list.rows.length === 0 ? (
        <p className="notice">
          {list.followed === 0
            ? 'No patient is followed yet. Results and courses come in through Intake.'
            : query.pseudonym
              ? 'No followed patient fits this pseudonym and the other filters. Check it with the quality team; a closed record is not on this list.'
              : 'No followed patient fits what the filters ask for.'}
        </p>
      ) : (
        <WorkList
          key={JSON.stringify(query)}
          packed={packedRows(list.rows.map(listed))}
          query={query}
          matching={list.matching}
          byWindow={list.byWindow}
          acts={{ answer: answerTogether, takeBack: takeBackBeside }}
        />
      )}
      <Turn query={query} matching={list.matching} />
      {list.matching > 0 && <Export query={query} matching={list.matching} />}
    </>
  )
}
