import { type TrailEvent, trailSays } from '../../trail/index.ts'
import type { Call } from '../call.ts'
import type { TrailRowView } from '../views.ts'

type Named = Pick<TrailRowView, 'says' | 'patientId'>

/** How the entries of the log say to this reader whom they concern. Quality works under pseudonyms, which are not built yet: it is not told. */
export function namingOf({ actor }: Call): (row: { readonly event: TrailEvent; readonly patientId: string | null }) => Named {
  const maySeePatients = actor.role !== 'quality'
  return ({ event, patientId }) => ({ says: trailSays(event, { patients: maySeePatients }), patientId: maySeePatients ? patientId : null })
}
