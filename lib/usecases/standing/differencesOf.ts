import { setImmediate as othersTurn } from 'node:timers/promises'
import type { FollowUpPlan } from '../../plan/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { planInForce } from '../plan/planInForce.ts'
import { freshStanding } from './keepStanding.ts'

/** Often enough that nobody wonders whether it still runs, seldom enough to be read. */
const TOLD_EVERY = 500

/** What is kept of a patient that a fresh evaluation does not say, by the names of its fields. */
export interface Difference {
  readonly patientId: string
  readonly says: string
}

function promisesMore(kept: Day | null, fresh: Day | null): boolean {
  return fresh !== null && (kept === null || kept > fresh)
}

function differenceOf({ store: { reader }, today }: Call, patientId: string, plan: FollowUpPlan): Difference | null {
  const fresh = freshStanding(reader, patientId, plan, today)
  const kept = reader.standing(patientId)
  if (fresh === null) return { patientId, says: 'has no history' }
  if (kept === null) return { patientId, says: 'has no standing' }
  // The day of evaluation may be earlier: the answer said that it holds until today. It may promise less than a fresh one, never more.
  const holdsUntil = promisesMore(kept.holdsUntil, fresh.holdsUntil) ? fresh.holdsUntil : kept.holdsUntil
  const same = { ...fresh, evaluatedOn: kept.evaluatedOn, holdsUntil }
  const fields = Object.keys(same).filter((key) => JSON.stringify(same[key as keyof typeof same]) !== JSON.stringify(kept[key as keyof typeof kept]))
  return fields.length === 0 ? null : { patientId, says: `differs in ${fields.join(', ')}` }
}

/** Evaluates patients afresh and holds what is kept of them against it. Writes nothing. */
export async function differencesOf(call: Call, patientIds: readonly string[], onProgress?: (progress: Progress) => void): Promise<Difference[]> {
  const plan = planInForce(call.store.reader, call.today)
  const differences: Difference[] = []
  for (const [done, patientId] of patientIds.entries()) {
    if (done > 0 && done % TOLD_EVERY === 0) onProgress?.({ step: 'patients evaluated', done, of: patientIds.length })
    const difference = differenceOf(call, patientId, plan)
    if (difference !== null) differences.push(difference)
    await othersTurn()
  }
  return differences
}
