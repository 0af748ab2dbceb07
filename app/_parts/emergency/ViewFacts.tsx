import type { EmergencyView } from '../../../lib/usecases/index.ts'
import { counted, instantText } from '../words.ts'

/** Who opened a closed record, when, for how long, why, and how often the page was opened. */
export function ViewFacts({ view }: { readonly view: EmergencyView }) {
  const { emergencyId, openedBy, fromAt, toAt, minutes, state, reason, patient, opened, acknowledgedBy, acknowledgedAt, note } = view
  return (
    <>
      <h3 id={`view-${emergencyId}`}>
        View {emergencyId} of <bdi>{openedBy}</bdi>
      </h3>
      <p>
        <bdi>{reason}</bdi>
      </p>
      <dl className="fields">
        <div>
          <dt>From</dt>
          <dd>{instantText(fromAt)}</dd>
        </div>
        <div>
          <dt>Until</dt>
          <dd>{instantText(toAt)}</dd>
        </div>
        <div>
          <dt>How long</dt>
          <dd>
            {counted(minutes, 'minute')}, {state}
          </dd>
        </div>
        <div>
          <dt>Patient</dt>
          <dd>{patient}</dd>
        </div>
        <div>
          <dt>Page opened</dt>
          <dd>{opened.length === 0 ? 'never' : opened.map(({ sequence, at }) => `${at.slice(11, 19)} (entry ${sequence})`).join(', ')}</dd>
        </div>
      </dl>
      {acknowledgedBy !== null && acknowledgedAt !== null && (
        <p className="small soft">
          Acknowledged by <bdi>{acknowledgedBy}</bdi>, {instantText(acknowledgedAt)}
          {note !== null && (
            <>
              : <bdi>{note}</bdi>
            </>
          )}
        </p>
      )}
    </>
  )
}
