import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { waitingChoice } from './confirmPatient.ts'

/** Declines whose a held row was proposed to be, with a reason; the row stays held. Its proposer may take a proposal back so. */
export async function declinePatient(call: Call, { heldId, reason }: { heldId: number; reason: string }): Promise<Outcome<{ sentence: string }>> {
  const refused = await refusedUnlessMay(call, 'held.identify', `held row ${heldId}`)
  if (refused !== null) return refused
  const typed = typedText(reason, 'The reason')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const waiting = waitingChoice(call, heldId)
  if ('ok' in waiting) return waiting
  const { id: choiceId, patientId } = waiting.choice
  const isDeclined = await call.store.record(call, (tx) => ({
    value: tx.decideChoice({ choiceId, by: call.actor.name, at: call.now, declinedBecause: typed.text }),
    events: [{ action: 'held-patient-declined', choiceId, heldId, patientId }],
  }))
  return isDeclined
    ? { ok: true, value: { sentence: `Declined. Row ${heldId} stays held.` } }
    : { ok: false, kind: 'invalid', reason: `For row ${heldId} no proposal waits any more.` }
}
