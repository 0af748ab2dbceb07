import Link from 'next/link'
import type { ListQuery } from '../../lib/usecases/index.ts'
import { counted } from '../_parts/words.ts'
import '../_parts/paper/paper.css'
import { exportAddress, type ListAt, paperAddress } from './address.ts'

interface Props {
  readonly query: ListQuery
  readonly matching: number
  readonly at?: ListAt
}

/** The ways to the list as a file: everybody the filters leave, on all its pages. A plain form: it works without JavaScript, and a link could be followed by mistake. */
export function Export({ query, matching, at = '/list' }: Props) {
  return (
    <form className="exports no-print" action={exportAddress(query, '', at)} method="post">
      <button className="button button-quiet" type="submit">
        Export as CSV
      </button>
      <button className="button button-quiet" type="submit" formAction={exportAddress(query, '/findings', at)}>
        Findings as CSV
      </button>
      {at === '/list' && (
        <Link className="button button-quiet" href={paperAddress(query)} prefetch={false}>
          Print the whole list
        </Link>
      )}
      <span className="small soft">
        {counted(matching, 'patient')}, {at === '/list' ? 'with names' : 'under pseudonyms'}; the log keeps who exported them.
      </span>
    </form>
  )
}
