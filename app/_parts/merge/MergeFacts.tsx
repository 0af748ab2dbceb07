import type { MergeView } from '../../../lib/usecases/index.ts'
import { instantText } from '../words.ts'

/** Who proposed a merge, why, and what became of it. */
export function MergeFacts({ merge }: { readonly merge: MergeView }) {
  const { proposedBy, proposedAt, reason, state, decidedBy, decidedAt, decisionReason, endedBy, endedAt, endReason } = merge
  return (
    <>
      <p>
        <bdi>{reason}</bdi>
      </p>
      <p className="small soft">
        Proposed by <bdi>{proposedBy}</bdi>, {instantText(proposedAt)}
        {decidedBy !== null && decidedAt !== null && (
          <>
            ; {state === 'declined' ? 'declined' : 'confirmed'} by <bdi>{decidedBy}</bdi>, {instantText(decidedAt)}
          </>
        )}
        {endedBy !== null && endedAt !== null && (
          <>
            ; ended by <bdi>{endedBy}</bdi>, {instantText(endedAt)}
          </>
        )}
      </p>
      {(decisionReason ?? endReason) !== null && (
        <p>
          {state === 'declined' ? 'Declined' : 'Ended'} because: <bdi>{decisionReason ?? endReason}</bdi>
        </p>
      )}
    </>
  )
}
