import type { Metadata } from 'next'
import Link from 'next/link'
import { AskForm } from '../_parts/followup/AskForm.tsx'
import { fieldsOf, reportAddress } from '../_parts/followup/address.ts'
import { Charts } from '../_parts/followup/Charts.tsx'
import { Groups } from '../_parts/followup/Groups.tsx'
import { Headline } from '../_parts/followup/Headline.tsx'
import { Measures } from '../_parts/followup/Measures.tsx'
import { OtherPlan } from '../_parts/followup/OtherPlan.tsx'
import { WorkedOut } from '../_parts/followup/WorkedOut.tsx'
import { WorkOut } from '../_parts/followup/WorkOut.tsx'
import { NotShown } from '../_parts/NotShown.tsx'
import { followUpPage } from '../_server/pages.ts'
import { type Given, readAsked } from './query.ts'
import '../_parts/followup/followup.css'

export const metadata: Metadata = { title: 'Follow-up audit' }

/** Did what should happen, happen on time? The figures of a period. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const wish = readAsked(await searchParams)
  const outcome = await followUpPage(wish)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const page = outcome.value
  const asked = wish === null ? null : fieldsOf(wish)
  const { shown } = page
  return (
    <>
      <h1>Follow-up audit</h1>
      <p className="soft">
        Did what should happen, happen on time? Lowmark asks of every past day what the review list would have had as due. A test done late is no
        proof of harm, and one done on time none of good care.
      </p>
      <AskForm page={page} asked={asked} />
      {asked === null && <p className="notice">Choose a period and press "Work out". The last whole half of a year is filled in.</p>}
      {asked !== null && page.wrong === null && shown === null && <WorkOut key={JSON.stringify(asked)} asked={asked} begins />}
      {asked !== null && shown !== null && (
        <>
          <WorkedOut shown={shown} asked={asked} />
          <Headline figures={shown.figures} />
          {shown.whatIf !== null && <OtherPlan figures={shown.figures} whatIf={shown.whatIf} version={asked.plan} />}
          <Charts figures={shown.figures} asked={asked} />
          {shown.figures.onTime.due > 0 && (
            <section aria-labelledby="groups">
              <h2 id="groups">On time, told apart</h2>
              <Groups by={shown.figures.by} asked={asked} />
            </section>
          )}
          <section aria-labelledby="measures">
            <h2 id="measures">The other measures</h2>
            <Measures figures={shown.figures} asked={asked} />
          </section>
          <p>
            <Link className="button button-quiet" href={reportAddress(asked)} prefetch={false}>
              Report of this period, to print
            </Link>
          </p>
        </>
      )}
    </>
  )
}
