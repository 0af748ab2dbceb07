import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { NotShown } from '../../_parts/NotShown.tsx'
import { reportPage } from '../../_server/pages.ts'
import { Report } from '../Report.tsx'

export const metadata: Metadata = { title: 'Intake report' }

const ROWS = 200
const PAGE = z.coerce.number().int().min(1).max(1_000_000).catch(1)

interface Props {
  readonly params: Promise<{ readonly fileId: string }>
  readonly searchParams: Promise<{ readonly page?: string }>
}

/** The lasting report of one file: every held and refused row, a page at a time. */
export default async function Page({ params, searchParams }: Props) {
  const { fileId } = await params
  if (!/^\d{1,15}$/.test(fileId)) notFound()
  const outcome = await reportPage(Number(fileId))
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const page = PAGE.parse((await searchParams).page)
  const { problems } = outcome.value
  const pages = Math.max(Math.ceil(problems.length / ROWS), 1)
  return (
    <>
      <h1>Intake report</h1>
      <Report report={{ ...outcome.value, problems: problems.slice((page - 1) * ROWS, page * ROWS) }} />
      {pages > 1 && (
        <nav className="turn" aria-label="Pages of the report">
          {page > 1 && (
            <Link href={`/intake/${fileId}?page=${page - 1}`} prefetch={false}>
              Page before
            </Link>
          )}
          <span className="soft">
            Page {page} of {pages}
          </span>
          {page < pages && (
            <Link href={`/intake/${fileId}?page=${page + 1}`} prefetch={false}>
              Next page
            </Link>
          )}
        </nav>
      )}
    </>
  )
}
