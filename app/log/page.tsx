import type { Metadata } from 'next'
import Link from 'next/link'
import { z } from 'zod'
import { NotShown } from '../_parts/NotShown.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText, words } from '../_parts/words.ts'
import { logPage } from '../_server/pages.ts'
import { Export } from './Export.tsx'

export const metadata: Metadata = { title: 'Log' }

const PAGE = z.coerce.number().int().min(1).max(10_000_000).catch(1)

interface Props {
  readonly searchParams: Promise<{ readonly page?: string }>
}

/** Who did what: own entries, or everyone's for quality and administrator. Reading it is an entry too. */
export default async function Page({ searchParams }: Props) {
  const page = PAGE.parse((await searchParams).page)
  const outcome = await logPage(page)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { rows, pages, scope } = outcome.value
  return (
    <>
      <h1>{scope === 'all' ? 'Log' : 'Your entries in the log'}</h1>
      <p className="soft">
        Latest first. Entries are never changed, and none younger than six years is removed; each carries the hash of the one before it. This look is
        an entry as well.
      </p>
      {scope === 'all' && <Export />}
      <table className="table stacked">
        <TableHead columns={['Number', 'When', 'Who', 'Role', 'Action', 'Outcome', 'What']} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.sequence}>
              <td className="number">{row.sequence}</td>
              <td>{instantText(row.at)}</td>
              <td data-label="Who">
                <bdi>{row.actor}</bdi>
              </td>
              <td data-label="Role">{row.role}</td>
              <td data-label="Action">{words(row.action)}</td>
              <td data-label="Outcome">{row.outcome}</td>
              <td>
                <bdi>{row.says}</bdi>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <nav className="turn" aria-label="Pages of the log">
        {page > 1 && (
          <Link href={`/log?page=${page - 1}`} prefetch={false}>
            Later entries
          </Link>
        )}
        <span className="soft">
          Page {page} of {pages}
        </span>
        {page < pages && (
          <Link href={`/log?page=${page + 1}`} prefetch={false}>
            Earlier entries
          </Link>
        )}
      </nav>
    </>
  )
}
