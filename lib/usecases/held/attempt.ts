import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileHeld } from '../intake/releaseHeld.ts'
import { type Attempt, overrule } from './overrule.ts'

/** Files a held row as it now reads, and decides in its favour where that is a person's to decide. */
export function attempt(tx: Tx, held: HeldRow, call: Call): Attempt {
  const filed = fileHeld(tx, held, call)
  if (filed.outcome === 'refused') return { filed: false, sentence: filed.sentence }
  if (filed.outcome !== 'held') return { filed: true, patientId: filed.patientId, ...(filed.addedPatient && { addedPatient: true }) }
  return overrule(tx, held, filed.reason, call) ?? { filed: false, sentence: filed.sentence }
}
