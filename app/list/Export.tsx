import type { ListQuery } from '../../lib/usecases/index.ts'
import { counted } from '../_parts/words.ts'
import { exportAddress } from './address.ts'

/** The way to the list as a file: everybody the filters leave, on all its pages. A plain form: it works without JavaScript, and a link could be followed by mistake. */
export function Export({ query, matching }: { readonly query: ListQuery; readonly matching: number }) {
  return (
    <form className="no-print" action={exportAddress(query)} method="post">
      <button className="button button-quiet" type="submit">
        Export as CSV
      </button>{' '}
      <span className="small soft">{counted(matching, 'patient')}, with names; the log keeps who exported them.</span>
    </form>
  )
}
