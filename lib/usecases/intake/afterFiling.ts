import type { HeldRow, StandingRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'
import { keepFindingChanges } from '../standing/keepFindingChanges.ts'
import { keepWorkedOut } from '../standing/keepStanding.ts'
import { releaseCorrections } from './releaseHeld.ts'

/**
 * What follows whatever was filed, refused or taken back of these patients, in the same transaction: corrections whose original is here now are filed,
 * what corrections did to findings is kept, and everybody known is evaluated again. `lastBefore` is the number of the last result version before it, `taken`
 * those taken back; `planned` are standings worked out before, each kept where it is of the revision and the plan there are. Answers the rows it released.
 */
export function afterFiling(
  tx: Tx,
  touched: Iterable<string>,
  lastBefore: number,
  call: Call,
  taken?: ReadonlySet<number>,
  planned: ReadonlyMap<string, StandingRow | null> = new Map(),
): HeldRow[] {
  // A held row may name somebody nobody knows: there is no history to evaluate.
  const all = [...touched]
  const stored = tx.patientsOf(all)
  const known = all.filter((patientId) => stored.has(patientId))
  const released = releaseCorrections(tx, known, call)
  keepFindingChanges(tx, lastBefore, call, taken)
  const workedOut = known.map((patientId) => {
    const before = released.length === 0 ? (planned.get(patientId) ?? null) : null
    return { patientId, before, revision: tx.bumpRevision(patientId) }
  })
  keepWorkedOut(tx, workedOut, planInForce(tx, call.today), call.today)
  return released
}
