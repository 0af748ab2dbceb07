import type { MergeView } from '../../../lib/usecases/index.ts'
import { MergeFacts } from './MergeFacts.tsx'
import { PatientLink } from './PatientLink.tsx'

/** Merges that were declined or ended. They stay to be read. */
export function PastMerges({ merges }: { readonly merges: readonly MergeView[] }) {
  return (
    <ul className="held">
      {merges.map((merge) => (
        <li key={merge.mergeId}>
          <article className="held-row" aria-labelledby={`merge-${merge.mergeId}`}>
            <h3 id={`merge-${merge.mergeId}`}>
              <PatientLink id={merge.fromId} address={merge.fromAddress} /> into <PatientLink id={merge.intoId} address={merge.intoAddress} />,{' '}
              {merge.state}
            </h3>
            <MergeFacts merge={merge} />
          </article>
        </li>
      ))}
    </ul>
  )
}
