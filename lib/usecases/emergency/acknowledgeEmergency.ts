import { emergencyRuns } from '../../access/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { samePerson } from '../plan/decideProposal.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { sessionEnd } from './sessionEnd.ts'

export interface AcknowledgeWish {
  readonly emergencyId: number
  /** May be left empty. */
  readonly note: string
}

/** Acknowledges an emergency view of somebody else that has ended, with a note or without. */
export async function acknowledgeEmergency(call: Call, { emergencyId, note }: AcknowledgeWish): Promise<Outcome<{ readonly sentence: string }>> {
  const refused = await refusedUnlessMay(call, 'emergency.acknowledge', `emergency view ${emergencyId}`)
  if (refused !== null) return refused
  const typed = note.trim() === '' ? { text: null } : typedText(note, 'The note')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const view = tx.emergency(emergencyId) ?? refuse('not-found', `No emergency view has the number ${emergencyId}.`)
      if (samePerson(view.openedBy, call.actor.name)) refuse('invalid', 'You opened this view yourself: somebody else has to acknowledge it.')
      if (view.acknowledgedBy !== null) refuse('invalid', `Emergency view ${emergencyId} was acknowledged by ${view.acknowledgedBy} already.`)
      if (emergencyRuns(view, call.now) && sessionEnd(tx, view, call.now) === null)
        refuse('invalid', 'This view still runs. It can be acknowledged once it has ended, with all that was opened in it.')
      tx.acknowledgeEmergency({ id: emergencyId, by: call.actor.name, at: call.now, note: typed.text })
      const { patientId } = view
      const after = canonicalSha256(tx.emergency(emergencyId) ?? view)
      return {
        value: { sentence: `Emergency view ${emergencyId} is acknowledged.` },
        events: [{ action: 'emergency-acknowledged', emergencyId, patientId, before: canonicalSha256(view), after }],
      }
    }),
  )
}
