import type { HeldRowView } from '../../lib/usecases/index.ts'
import { counted, instantText, words } from '../_parts/words.ts'
import { DecideForm } from './DecideForm.tsx'

/** One held row: why it waits, what was received, and the decision. */
export function HeldRow({ row }: { readonly row: HeldRowView }) {
  const filled = Object.entries(row.fields).filter(([, value]) => value !== '')
  return (
    <article className="held-row" aria-labelledby={`held-${row.heldId}`}>
      <h2 id={`held-${row.heldId}`}>
        {row.patientId === null ? 'No patient' : <bdi>{row.patientId}</bdi>}: {words(row.reason)}
      </h2>
      <p>{row.sentence}</p>
      <p className="small soft">
        Waiting {counted(row.waitingDays, 'day')}; {row.kind}, file <bdi>{row.fileName}</bdi>, row {row.line}, received {instantText(row.receivedAt)}
      </p>
      <dl className="fields">
        {filled.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="received">{value}</dd>
          </div>
        ))}
      </dl>
      <DecideForm heldId={row.heldId} />
    </article>
  )
}
