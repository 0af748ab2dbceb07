import { interpretResult } from '../../intake/index.ts'
import { resultIdentity } from '../../results/index.ts'
import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Filed, storeVersion } from '../intake/fileRow.ts'
import { fileHeld, rawRowOf } from '../intake/releaseHeld.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { keepStanding } from '../standing/keepStanding.ts'

// What a person may decide against: which of two reports counts. A unit, a code, a number or a person that could not be read is never decided by saying so.
const MAY_BE_OVERRULED = ['conflicting-value', 'correction-before-original']

type Attempt = { readonly filed: true; readonly patientId: string } | { readonly filed: false; readonly sentence: string }

/** Files a result that conflicts with a stored one as its correction, and one whose original never came as the first version. */
function overrule(tx: Tx, held: HeldRow, call: Call): Attempt {
  const patient = tx.patient(held.patientId ?? '')?.patient ?? null
  const read = interpretResult(rawRowOf(held), patient, call.today)
  if (read.outcome !== 'take') return { filed: false, sentence: read.sentence }
  const stored = tx.versionsOf(resultIdentity(read.value)).map(({ result }) => result)
  const version = Math.max(0, ...stored.map((result) => result.version)) + 1
  const incoming = stored.length === 0 ? read.value : { ...read.value, status: 'corrected' as const }
  storeVersion(tx, incoming, version, stored, { fileId: held.fileId, line: held.line, now: call.now })
  return { filed: true, patientId: incoming.patientId }
}

function attempt(tx: Tx, held: HeldRow, call: Call): Attempt {
  const filed: Filed | { outcome: 'refused'; sentence: string } = fileHeld(tx, held, call)
  if (filed.outcome === 'refused') return { filed: false, sentence: filed.sentence }
  if (filed.outcome !== 'held') return { filed: true, patientId: filed.patientId }
  return MAY_BE_OVERRULED.includes(filed.reason) ? overrule(tx, held, call) : { filed: false, sentence: filed.sentence }
}

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
      const outcome = decision === 'file' ? attempt(tx, known, call) : null
      if (outcome !== null && !outcome.filed) throw new StillHeld(outcome.sentence)
      if (!tx.resolveHeld({ heldId, decision, reason: reason.trim(), by: call.actor.name, at: call.now })) {
        throw new StillHeld(`Row ${heldId} was decided by ${known.resolved?.by ?? 'somebody else'} already.`)
      }
      for (const patientId of new Set([known.patientId, outcome?.patientId ?? null])) {
        if (patientId === null || tx.patient(patientId) === null) continue
        tx.bumpRevision(patientId)
        keepStanding(tx, patientId, call.today)
      }
      return { value: null, events: [{ action: 'held-resolved', heldId, patientId: known.patientId, decision }] }
    })
  } catch (error) {
    if (error instanceof StillHeld) return { ok: false, kind: 'invalid', reason: `Row ${heldId} stays as it is. ${error.message}` }
    throw error
  }
  const done = decision === 'file' ? 'was filed' : 'was refused; nothing of it is stored'
  return { ok: true, value: { sentence: `Row ${known.line} of ${known.fileName} ${done}.` } }
}
