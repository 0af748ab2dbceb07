import { findingChanges } from '../../standing/index.ts'
import type { Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'

/**
 * Keeps what the corrections filed since did to findings somebody could have seen: of every result that was stored before version `resultId` was and of
 * which another version counts now, and of those in `taken`, which were taken back with a mapping. Inside the transaction that filed them; costs nothing
 * where nothing was corrected.
 */
export function keepFindingChanges(tx: Tx, resultId: number, call: Call, taken: ReadonlySet<number> = new Set()): void {
  const corrections = tx.correctionsSince(resultId, taken)
  if (corrections.length === 0) return
  const plan = planInForce(tx, call.today)
  // What was told of joined records was told of the one that is kept.
  const told = corrections.map((correction) => ({ ...correction, patientId: tx.keptId(correction.patientId) }))
  for (const patientId of new Set(told.map((correction) => correction.patientId))) {
    const stored = tx.loadHistory(patientId)
    if (stored === null) continue
    const own = told.filter((correction) => correction.patientId === patientId)
    for (const change of findingChanges(stored.history, own, plan, call.today)) {
      tx.insertFindingChange({ patientId, at: call.now, on: call.today, ...change })
    }
  }
}
