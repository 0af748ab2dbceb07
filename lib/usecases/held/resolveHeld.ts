import type { Call, Outcome } from '../call.ts'
import { afterFiling } from '../intake/afterFiling.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { attempt } from './attempt.ts'
import { sentenceFor } from './sentenceFor.ts'

/** Takes a decision back together with everything done for it. */
class StillHeld extends Error {}

/**
 * Decides on a held row, with the reason a person gave. `file` reads it afresh: what was missing may be there now (the patient, the original), and a
 * conflict is decided in favour of this row. What still cannot be read stays in the queue. `refuse` takes it out and stores nothing of it.
 */
export async function resolveHeld(call: Call, heldId: number, decision: 'file' | 'refuse', reason: string): Promise<Outcome<{ sentence: string }>> {
  const refused = await refusedUnlessMay(call, 'held.resolve', `held row ${heldId}`)
  if (refused !== null) return refused
  if (reason.trim() === '') return { ok: false, kind: 'invalid', reason: 'The reason is missing: it says why, and is kept.' }
  const known = call.store.reader.heldRow(heldId)
  if (known === null) return { ok: false, kind: 'not-found', reason: `No held row has the number ${heldId}.` }
  try {
    await call.store.record(call, (tx) => {
      if (!tx.resolveHeld({ heldId, decision, reason: reason.trim(), by: call.actor.name, at: call.now })) {
        throw new StillHeld(`It was decided by ${tx.heldRow(heldId)?.resolved?.by ?? 'somebody else'} already.`)
      }
      const lastBefore = tx.lastResultId()
      const outcome = decision === 'file' ? attempt(tx, known, call) : null
      if (outcome !== null && !outcome.filed) throw new StillHeld(sentenceFor(call, outcome.sentence))
      const touched = new Set([known.patientId, outcome?.patientId ?? null].filter((id) => id !== null && tx.patient(id) !== null)) as Set<string>
      const released = afterFiling(tx, touched, lastBefore, call)
      const resolved = (id: number, patientId: string | null) => ({ action: 'held-resolved', heldId: id, patientId, decision }) as const
      const own = { ...resolved(heldId, outcome?.patientId ?? known.patientId), ...(outcome?.addedPatient && { patientAdded: true as const }) }
      return { value: null, events: [own, ...released.map((row) => resolved(row.id, row.patientId))] }
    })
  } catch (error) {
    if (error instanceof StillHeld) return { ok: false, kind: 'invalid', reason: `Row ${heldId} stays as it is. ${error.message}` }
    throw error
  }
  const done = decision === 'file' ? 'was filed' : 'was refused; nothing of it is stored'
  return { ok: true, value: { sentence: `Row ${known.line} of ${known.fileName} ${done}.` } }
}
