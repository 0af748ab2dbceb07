import Link from 'next/link'
import type { ChoiceView } from '../../lib/usecases/index.ts'
import { counted, instantText } from '../_parts/words.ts'
import { Compared } from './Compared.tsx'
import { SecondPerson } from './SecondPerson.tsx'

/** Whose a row is by one person's word, and for somebody else the way to confirm or decline it. */
export function Choice({ choice }: { readonly choice: ChoiceView }) {
  const { heldId, patientId, reason, proposedBy, proposedAt, alike, rows, remember, compared, mayConfirm, mayDecline } = choice
  return (
    <article className="held-row" aria-labelledby={`choice-${choice.id}`}>
      <h3 id={`choice-${choice.id}`}>
        Row {heldId}
        {alike && rows > 1 && ` and ${counted(rows - 1, 'row')} alike`}
        {patientId !== null && (
          <>
            {' '}
            as patient <bdi>{patientId}</bdi>
          </>
        )}
      </h3>
      <p>
        Proposed by <bdi>{proposedBy}</bdi>, {instantText(proposedAt)}
        {reason !== null && (
          <>
            : <bdi>{reason}</bdi>
          </>
        )}
      </p>
      {compared === null ? <p className="soft">What identifies the patient is not shown to your role.</p> : <Compared compared={compared} />}
      <p className="small soft">
        Confirming files {counted(rows, 'row')}
        {remember && ' and lets this identifier mean this patient in later files of the source'}.{' '}
        <Link href={`/held/${heldId}`} prefetch={false}>
          See the row
        </Link>
      </p>
      {!mayConfirm && mayDecline && <p className="notice">You proposed this. Somebody else has to confirm it.</p>}
      {mayDecline && <SecondPerson heldId={heldId} mayConfirm={mayConfirm} />}
    </article>
  )
}
