import type { ShownAudit } from '../../../lib/usecases/index.ts'
import { instantText } from '../words.ts'
import type { AskedFields } from './address.ts'
import { plansSay } from './plansSay.ts'
import { WorkOut } from './WorkOut.tsx'

interface Props {
  readonly shown: ShownAudit
  readonly asked: AskedFields
}

/** Of which data the figures are, and whether those have changed since. */
export function WorkedOut({ shown, asked }: Props) {
  const { figures, current, workedOutAt, revision } = shown
  return (
    <div className={current ? 'followup-of' : 'followup-of notice'}>
      <p>
        {figures.from} to {figures.to}, data up to {figures.cutOff}. {plansSay(shown)}.
      </p>
      <p className="small soft">
        Worked out {instantText(workedOutAt)}, revision {revision} of the data.{' '}
        {current ? 'Nothing has changed since.' : <b>The data have changed since.</b>}
      </p>
      {!current && <WorkOut asked={asked} begins={false} />}
    </div>
  )
}
