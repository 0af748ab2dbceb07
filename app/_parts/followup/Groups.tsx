import '../paper/paper.css'
import { DIMENSIONS, type Figures } from '../../../lib/followup/index.ts'
import { type AskedFields, exportAddress } from './address.ts'
import { GroupTable } from './GroupTable.tsx'
import { DIMENSION_WORDS } from './names.ts'

/** The tables of the audit, the first open; each with its file. */
export function Groups({ by, asked }: { readonly by: Figures['by']; readonly asked: AskedFields }) {
  return DIMENSIONS.map((dimension, at) => (
    <details className="followup-group" key={dimension} open={at === 0}>
      <summary>By {DIMENSION_WORDS[dimension].toLowerCase()}</summary>
      <GroupTable by={dimension} rows={by[dimension]} asked={asked} />
      <form className="exports no-print" action={exportAddress(asked, dimension)} method="post">
        <button className="button button-quiet" type="submit">
          Export as CSV<span className="sr-only">: by {DIMENSION_WORDS[dimension].toLowerCase()}</span>
        </button>
      </form>
    </details>
  ))
}
