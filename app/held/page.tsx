import type { Metadata } from 'next'
import Link from 'next/link'
import { z } from 'zod'
import { NotShown } from '../_parts/NotShown.tsx'
import { counted } from '../_parts/words.ts'
import { heldPage } from '../_server/pages.ts'
import { Mappings } from '../sources/Mappings.tsx'
import { Choice } from './Choice.tsx'
import { Groups } from './Groups.tsx'
import './held.css'

export const metadata: Metadata = { title: 'Held rows' }

const PAGE = z.coerce.number().int().min(1).max(1_000_000).catch(1)

interface Props {
  readonly searchParams: Promise<{ readonly page?: string }>
}

/** Rows that wait for a person, by what they have in common; those that can hide a danger first. */
export default async function Page({ searchParams }: Props) {
  const page = PAGE.parse((await searchParams).page)
  const outcome = await heldPage(page)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { choices, groups, groupCount, rowCount, pages } = outcome.value
  return (
    <div className="held-page">
      <h1>Held rows</h1>
      <p className="soft">
        {rowCount === 0
          ? 'No row waits. Whatever intake cannot file without guessing comes here.'
          : `${counted(rowCount, 'row')} that intake could not file without guessing, in ${counted(groupCount, 'group')}, one decision for each. Until someone decides, the patient shows as having results nobody has seen.`}
      </p>
      {choices.length > 0 && (
        <p className="notice">
          {counted(choices.length, 'choice')} of a patient {choices.length === 1 ? 'waits' : 'wait'} for a second person:{' '}
          <a href="#second">look at {choices.length === 1 ? 'it' : 'them'}</a>, below the queue.
        </p>
      )}
      {groups.length > 0 && <Groups groups={groups} />}
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
      {choices.length > 0 && (
        <section aria-labelledby="second">
          <h2 id="second">Waiting for a second person</h2>
          <div className="held">
            {choices.map((choice) => (
              <Choice key={choice.id} choice={choice} />
            ))}
          </div>
        </section>
      )}
      <Mappings />
    </div>
  )
}
