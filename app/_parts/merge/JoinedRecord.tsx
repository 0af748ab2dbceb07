import type { MergeView } from '../../../lib/usecases/index.ts'
import type { MergeActs } from './acts.ts'
import { MergesInForce } from './MergesInForce.tsx'
import { PatientLink } from './PatientLink.tsx'
import './merge.css'

/** What stands in place of the page of a record that is read as part of another: where it went, why, and the way to end that. */
export function JoinedRecord({ merge, end }: { readonly merge: MergeView; readonly end: MergeActs['end'] }) {
  return (
    <section className="merges">
      <h1>
        Record <bdi>{merge.fromId}</bdi> is joined to another
      </h1>
      <p className="notice">
        Everything in it is shown with patient <PatientLink id={merge.intoId} address={merge.intoAddress} />. It has no place of its own in the review
        list; what still comes in under this identifier is filed here and shown there.
      </p>
      <h2>Why, and how it is ended</h2>
      <MergesInForce merges={[merge]} end={end} />
    </section>
  )
}
