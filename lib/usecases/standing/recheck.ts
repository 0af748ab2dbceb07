import { assess } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'
import { standingRow } from './keepStanding.ts'
import { renewStandings } from './renewStandings.ts'

/** Often enough that nobody wonders whether it still runs, seldom enough to be read. */
const TOLD_EVERY = 500

export interface Recheck {
  readonly patients: number
  readonly differences: readonly { readonly patientId: string; readonly says: string }[]
}

function promisesMore(kept: Day | null, fresh: Day | null): boolean {
  return fresh !== null && (kept === null || kept > fresh)
}

/** Evaluates every patient afresh and compares with what is stored. Whatever differs is named by field. For whoever keeps the machine: the console only. */
export async function recheck(call: Call, onProgress: (sentence: string) => void = () => undefined): Promise<Outcome<Recheck>> {
  if (call.actor.role !== 'console') return { ok: false, kind: 'not-allowed', reason: 'Patients are evaluated afresh from the command line.' }
  await renewStandings(call)
  const { reader } = call.store
  const plan = planInForce(reader, call.today)
  const patientIds = reader.patientIds()
  const differences = patientIds.flatMap((patientId, done) => {
    if (done > 0 && done % TOLD_EVERY === 0) onProgress(`evaluated: ${done} of ${patientIds.length} patients`)
    const stored = reader.loadHistory(patientId)
    const kept = reader.standing(patientId)
    if (stored === null) return [{ patientId, says: 'has no history' }]
    if (kept === null) return [{ patientId, says: 'has no standing' }]
    const fresh = standingRow(assess(stored.history, plan, call.today), stored.revision, plan.version)
    // The day of evaluation may be earlier: the answer said that it holds until today. It may promise less than a fresh one, never more.
    const holdsUntil = promisesMore(kept.holdsUntil, fresh.holdsUntil) ? fresh.holdsUntil : kept.holdsUntil
    const same = { ...fresh, evaluatedOn: kept.evaluatedOn, holdsUntil }
    const fields = Object.keys(same).filter(
      (key) => JSON.stringify(same[key as keyof typeof same]) !== JSON.stringify(kept[key as keyof typeof kept]),
    )
    return fields.length === 0 ? [] : [{ patientId, says: `differs in ${fields.join(', ')}` }]
  })
  await call.store.record(call, () => ({
    value: null,
    events: [{ action: 'rechecked', patients: patientIds.length, differences: differences.length }],
  }))
  return { ok: true, value: { patients: patientIds.length, differences } }
}
