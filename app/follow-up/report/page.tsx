import type { Metadata } from 'next'
import Link from 'next/link'
import { auditAddress, fieldsOf } from '../../_parts/followup/address.ts'
import { Rebuild } from '../../_parts/followup/Rebuild.tsx'
import { Report } from '../../_parts/followup/Report.tsx'
import { WorkedOut } from '../../_parts/followup/WorkedOut.tsx'
import { WorkOut } from '../../_parts/followup/WorkOut.tsx'
import { NotShown } from '../../_parts/NotShown.tsx'
import { PrintNow } from '../../_parts/paper/PrintNow.tsx'
import { followUpPage } from '../../_server/pages.ts'
import { type Given, readAsked } from '../query.ts'
import '../../_parts/followup/followup.css'
import '../../_parts/followup/report.css'

export const metadata: Metadata = { title: 'Report of the follow-up audit' }

/** The audit of a period as a document to print, and the way to build it once more from the same data. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const wish = readAsked(await searchParams)
  const outcome = await followUpPage(wish)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { shown, wrong } = outcome.value
  const asked = wish === null ? null : fieldsOf(wish)
  if (asked === null || wrong !== null) {
    return (
      <>
        <h1>Report of the follow-up audit</h1>
        <p className="notice">
          {wrong ?? 'No period was chosen.'}{' '}
          <Link href="/follow-up" prefetch={false}>
            Choose a period
          </Link>
        </p>
      </>
    )
  }
  if (shown === null) {
    return (
      <>
        <h1>
          Follow-up audit, {asked.from} to {asked.to}
        </h1>
        <WorkOut key={JSON.stringify(asked)} asked={asked} begins />
      </>
    )
  }
  return (
    <>
      <div className="no-print">
        <p className="followup-ways">
          <PrintNow />
          <Link href={auditAddress(asked)} prefetch={false}>
            Back to the figures
          </Link>
        </p>
        <WorkedOut shown={shown} asked={asked} />
        <Rebuild asked={asked} shown={{ revision: shown.revision, sha256: shown.sha256 }} />
      </div>
      <Report shown={shown} plan={asked.plan} />
    </>
  )
}
