import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { waitingRow } from './decideHeld.ts'
import { type ComparedView, comparedWith } from './identity.ts'

/** Shows what identifies a patient beside what a held row says of whose it is, before somebody proposes that it is theirs. */
export async function compareHeld(call: Call, { heldId, patientId }: { heldId: number; patientId: string }): Promise<Outcome<ComparedView>> {
  const refused = await refusedUnlessMay(call, 'held.identify', `held row ${heldId}`)
  if (refused !== null) return refused
  const found = waitingRow(call, heldId)
  if ('ok' in found) return found
  const compared = comparedWith(call.store.reader, found.held, patientId)
  if (compared === null) return { ok: false, kind: 'not-found', reason: `No patient has the number "${patientId}".` }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'held-compared', heldId, patientId }] }))
  return { ok: true, value: compared }
}
