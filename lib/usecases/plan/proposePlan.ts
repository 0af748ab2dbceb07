import { valuesOf } from '../../plan/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { planSha256 } from './planSha256.ts'
import { type PlanWish, readWish } from './readWish.ts'
import { typedProblem } from './typedProblem.ts'

/** Proposes a change of the plan. Nothing of it is in force before an administrator publishes it. What is wrong is told field by field, all at once. */
export async function proposePlan(call: Call, wish: PlanWish & { readonly note: string }): Promise<Outcome<{ readonly version: number }>> {
  const refused = await refusedUnlessMay(call, 'plan.propose', 'follow-up plan')
  if (refused !== null) return refused
  const note = wish.note.trim()
  const problem = typedProblem(note)
  const read = readWish(call, wish, problem === null ? [] : [{ field: 'note', says: problem }])
  if (!read.ok) return read
  const { last, values, from } = read.value
  const proposal = { basedOn: Number(last.version), values, note, proposedBy: call.actor.name, proposedAt: call.now, from }
  const version = await call.store.record(call, (tx) => {
    const number = tx.insertPlanVersion(proposal)
    const hashes = { beforeSha256: planSha256(valuesOf(last)), afterSha256: planSha256(values) }
    return { value: number, events: [{ action: 'plan-proposed', version: number, from, ...hashes }] }
  })
  return { ok: true, value: { version } }
}
