import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileHeld } from '../intake/releaseHeld.ts'
import type { Attempt } from './overrule.ts'

/** Reads a held row afresh and files it; where it still cannot be read, keeps why it waits now and whose it is by what is known now. */
export function readAgain(tx: Tx, held: HeldRow, call: Call): Attempt {
  const answer = fileHeld(tx, held, call)
  if (answer.outcome === 'refused') return { filed: false, sentence: answer.sentence }
  if (answer.outcome !== 'held') return { filed: true, patientId: answer.patientId, ...(answer.addedPatient && { addedPatient: true }) }
  const { patientId, reason, sentence, on } = answer
  tx.setWaiting({ heldId: held.id, patientId: patientId === '' ? null : patientId, reason, sentence, collectedOn: on })
  return { filed: false, sentence }
}
