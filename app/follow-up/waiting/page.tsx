import type { Metadata } from 'next'
import Link from 'next/link'
import type { WaitingKind } from '../../../lib/followup/index.ts'
import { auditAddress, fieldsOf } from '../../_parts/followup/address.ts'
import { Waits } from '../../_parts/followup/Waits.tsx'
import { NotShown } from '../../_parts/NotShown.tsx'
import { followUpWaitingPage } from '../../_server/pages.ts'
import { type Given, readWaitingAsked } from '../query.ts'
import '../../_parts/followup/followup.css'

export const metadata: Metadata = { title: 'What waits behind the audit' }

const HEADS: Readonly<Record<WaitingKind, string>> = {
  overdue: 'Tests overdue at the end of the period',
  unanswered: 'Findings of the period that nobody answered',
  'no-second': 'Findings of the period without a second sample',
}

/** What waits behind a figure of the audit: whose it is, and how long. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const wish = readWaitingAsked(await searchParams)
  const outcome = await followUpWaitingPage(wish)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { period, pseudonymous } = outcome.value
  const fields = fieldsOf({ ...wish, whatIf: null })
  const { plan: _, ...days } = fields
  const asked = { ...days, what: wish.what }
  return (
    <>
      <h1>{HEADS[wish.what]}</h1>
      <p className="soft">
        {period.from} to {period.to}, data up to {period.cutOff}. {pseudonymous && 'Under pseudonyms. '}
        <Link href={auditAddress(fields)} prefetch={false}>
          Back to the figures
        </Link>
      </p>
      <Waits key={JSON.stringify(asked)} asked={asked} what={wish.what} pseudonymous={pseudonymous} />
    </>
  )
}
