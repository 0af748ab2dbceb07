import { patientsOf, type TrailEvent, trailSays } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { pseudonymsOf } from '../pseudonyms/pseudonymsOf.ts'
import type { TrailRowView } from '../views.ts'

type Named = Pick<TrailRowView, 'says' | 'patientId' | 'pseudonyms' | 'concerned'>

/** An entry may concern the whole cohort; so many are named. */
const NAMED = 200

/** How the entries of this reader say whom they concern: quality by pseudonym, and files by their number, everybody else by the patient's number. */
export function namingOf(call: Call): Outcome<(row: { readonly event: TrailEvent; readonly patientId: string | null }) => Named> {
  if (call.actor.role !== 'quality') {
    return { ok: true, value: ({ event, patientId }) => ({ says: trailSays(event, { patients: true }), patientId, pseudonyms: [], concerned: 0 }) }
  }
  const under = pseudonymsOf(call)
  if (!under.ok) return under
  const as = under.value.of
  return {
    ok: true,
    value: ({ event }) => {
      const concerned = patientsOf(event)
      const pseudonyms = [...new Set(concerned.slice(0, NAMED).map(as))]
      return { says: trailSays(event, { patients: true, as, fileNames: false }), patientId: null, pseudonyms, concerned: concerned.length }
    },
  }
}
