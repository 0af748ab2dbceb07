import type { Metadata } from 'next'
import Link from 'next/link'
import { NotShown } from '../../_parts/NotShown.tsx'
import { roundPage } from '../../_server/pages.ts'
import { Print } from '../Print.tsx'
import { Summary } from '../Summary.tsx'
import '../rounds.css'

export const metadata: Metadata = { title: 'Summary of a round' }

/** The summary of one round, on one page of paper. */
export default async function Page({ params }: { readonly params: Promise<{ roundId: string }> }) {
  const { roundId } = await params
  const outcome = await roundPage(/^[1-9]\d{0,9}$/.test(roundId) ? Number(roundId) : 0)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <>
      <Summary summary={outcome.value} />
      <p className="no-print">
        <Print /> <Link href="/rounds">All rounds</Link>
      </p>
    </>
  )
}
