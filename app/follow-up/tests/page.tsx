import type { Metadata } from 'next'
import Link from 'next/link'
import type { OccasionsWish } from '../../../lib/usecases/index.ts'
import { auditAddress, fieldsOf } from '../../_parts/followup/address.ts'
import { DIMENSION_WORDS, rowName } from '../../_parts/followup/names.ts'
import { Tests } from '../../_parts/followup/Tests.tsx'
import { NotShown } from '../../_parts/NotShown.tsx'
import { followUpTestsPage } from '../../_server/pages.ts'
import { type Given, readTestsAsked } from '../query.ts'
import '../../_parts/followup/followup.css'

export const metadata: Metadata = { title: 'Tests behind the audit' }

const VERDICT_WORDS: Readonly<Record<NonNullable<OccasionsWish['verdict']>, string>> = {
  'on-time': 'done on time',
  late: 'done late',
  missed: 'missed',
}

/** The tests behind a row of the audit: whose they were, and what happened. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const wish = readTestsAsked(await searchParams)
  const outcome = await followUpTestsPage(wish)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { period, pseudonymous } = outcome.value
  const { by, key, verdict } = wish
  const fields = fieldsOf({ ...wish, whatIf: null })
  const { plan: _, ...days } = fields
  const asked = { ...days, by, key, verdict: verdict ?? '' }
  return (
    <>
      <h1>
        Tests {verdict === null ? 'that were due' : VERDICT_WORDS[verdict]}: <bdi>{rowName(by, key)}</bdi>
      </h1>
      <p className="soft">
        By {DIMENSION_WORDS[by].toLowerCase()}, due {period.from} to {period.to}, data up to {period.cutOff}. {pseudonymous && 'Under pseudonyms. '}
        <Link href={auditAddress(fields)} prefetch={false}>
          Back to the figures
        </Link>
      </p>
      <Tests key={JSON.stringify(asked)} asked={asked} pseudonymous={pseudonymous} />
    </>
  )
}
