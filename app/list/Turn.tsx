import Link from 'next/link'
import type { ListQuery } from '../../lib/usecases/index.ts'
import { counted } from '../_parts/words.ts'
import { addressOf, type ListAt } from './address.ts'

/** Which part of the list this page shows, and the ways to the others. */
export function Turn({ query, matching, at = '/list' }: { readonly query: ListQuery; readonly matching: number; readonly at?: ListAt }) {
  const pages = Math.max(Math.ceil(matching / query.pageSize), 1)
  return (
    <nav className="turn no-print" aria-label="Pages of the list">
      {query.page > 1 && (
        <Link href={addressOf(query, { page: query.page - 1 }, at)} prefetch={false}>
          Page before
        </Link>
      )}
      <span className="soft">
        Page {query.page} of {pages}, {counted(matching, 'patient')}
      </span>
      {query.page < pages && (
        <Link href={addressOf(query, { page: query.page + 1 }, at)} prefetch={false}>
          Next page
        </Link>
      )}
    </nav>
  )
}
