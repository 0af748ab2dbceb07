import type { Metadata } from 'next'
import Link from 'next/link'
import { z } from 'zod'
import { NotShown } from '../_parts/NotShown.tsx'
import { counted } from '../_parts/words.ts'
import { heldPage } from '../_server/pages.ts'
import { HeldRow } from './HeldRow.tsx'

export const metadata: Metadata = { title: 'Held rows' }

const PAGE_SIZE = 25
const PAGE = z.coerce.number().int().min(1).max(1_000_000).catch(1)

interface Props {
  readonly searchParams: Promise<{ readonly page?: string }>
}

/** Rows that wait for a person, longest waiting first. */
export default async function Page({ searchParams }: Props) {
  const page = PAGE.parse((await searchParams).page)
  const outcome = await heldPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const shown = outcome.value.slice((page - 1) * PAGE_SIZE, page * PAGE_SIZE)
  const pages = Math.max(Math.ceil(outcome.value.length / PAGE_SIZE), 1)
  return (
    <>
      <h1>Held rows</h1>
      <p className="soft">
        {outcome.value.length === 0
          ? 'No row waits. Whatever intake cannot file without guessing comes here.'
          : `${counted(outcome.value.length, 'row')} that intake could not file without guessing. Until someone decides, the patient shows as having results nobody has seen.`}
      </p>
      <ol className="held">
        {shown.map((row) => (
          <li key={row.heldId}>
            <HeldRow row={row} />
          </li>
        ))}
      </ol>
      {pages > 1 && (
        <nav className="turn" aria-label="Pages of held rows">
          {page > 1 && (
            <Link href={`/held?page=${page - 1}`} prefetch={false}>
              Page before
            </Link>
          )}
          <span className="soft">
            Page {page} of {pages}
          </span>
          {page < pages && (
            <Link href={`/held?page=${page + 1}`} prefetch={false}>
              Next page
            </Link>
          )}
        </nav>
      )}
    </>
  )
}
