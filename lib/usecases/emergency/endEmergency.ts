import { emergencyRuns } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { samePerson } from '../plan/decideProposal.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** Ends a running emergency view of one's own before its time: the record is closed again at once. */
export async function endEmergency(call: Call, { emergencyId }: { readonly emergencyId: number }): Promise<Outcome<null>> {
  const refused = await refusedUnlessMay(call, 'emergency.open', `emergency view ${emergencyId}`)
  if (refused !== null) return refused
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const view = tx.emergency(emergencyId)
      // Somebody else's number is answered like nobody's.
      if (view === null || !samePerson(view.openedBy, call.actor.name)) return refuse('not-found', `You have no emergency view ${emergencyId}.`)
      // A clock that was set right by a little meanwhile ends no view before it began.
      const isBefore = call.now < view.fromAt
      const at = isBefore ? view.fromAt : call.now
      if (!emergencyRuns(view, call.now) || !tx.endEmergency(emergencyId, at)) refuse('invalid', 'This emergency view has ended already.')
      return { value: null, events: [{ action: 'emergency-ended', emergencyId, patientId: view.patientId }] }
    }),
  )
}
