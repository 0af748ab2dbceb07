import type { Metadata } from 'next'
import { NotShown } from '../../_parts/NotShown.tsx'
import { PaperList } from '../../_parts/paper/index.ts'
import { PaperHead } from '../../_parts/paper/PaperHead.tsx'
import { paperListPage } from '../../_server/pages.ts'
import { addressOf } from '../address.ts'
import { type Given, readQuery } from '../query.ts'

export const metadata: Metadata = { title: 'Review list for paper' }

/** The whole filtered list, laid out for paper. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<Given> }) {
  const query = readQuery(await searchParams)
  const outcome = await paperListPage(query)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <>
      <PaperHead back={addressOf(query, {})} says="Back to the list" />
      <PaperList list={outcome.value} />
    </>
  )
}
