import { may } from '../../access/index.ts'
import { lastPlan, planDifferences, planOfValues, valuesOf } from '../../plan/index.ts'
import { WINDOWS } from '../../rules/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { readBeginning } from './beginsOn.ts'
import { planSha256 } from './planSha256.ts'
import { type PlanWish, type ReadWish, readWish, refusedFields } from './readWish.ts'
import { tryOverCohort } from './tryOverCohort.ts'
import type { TriedPatient, TriedPlan } from './views.ts'

/** What is to be tried: numbers a physician has before them, or a waiting proposal from a day on. */
export type TrialWish =
  | { readonly kind: 'changes'; readonly wish: PlanWish }
  | { readonly kind: 'proposal'; readonly version: number; readonly from: string }

const SHOWN = 200

function readProposal(call: Call, version: number, from: string): Outcome<ReadWish> {
  const { reader } = call.store
  const proposal = reader.planVersion(version)
  if (proposal === null) return { ok: false, kind: 'not-found', reason: `No version of the plan has the number ${version}.` }
  if (proposal.state !== 'proposed') return { ok: false, kind: 'invalid', reason: `Version ${version} was ${proposal.state} already.` }
  const last = lastPlan(reader.publishedPlans())
  const begins = readBeginning(from, last, call.today)
  if ('problem' in begins) return refusedFields([{ field: 'from', says: begins.problem }])
  return { ok: true, value: { last, values: proposal.values, from: begins.day } }
}

/** May, and what exactly is to be tried; nothing is evaluated yet. Trying numbers is for those who propose, trying a proposal for those who publish. */
export async function readTrial(call: Call, wish: TrialWish): Promise<Outcome<ReadWish>> {
  const refused = await refusedUnlessMay(call, wish.kind === 'changes' ? 'plan.propose' : 'plan.publish', 'follow-up plan')
  if (refused !== null) return refused
  return wish.kind === 'changes' ? readWish(call, wish.wish) : readProposal(call, wish.version, wish.from)
}

function soonestFirst(a: TriedPatient, b: TriedPatient): number {
  return (
    WINDOWS.indexOf(a.after) - WINDOWS.indexOf(b.after) ||
    WINDOWS.indexOf(a.before) - WINDOWS.indexOf(b.before) ||
    (a.patientId < b.patientId ? -1 : 1)
  )
}

/**
 * Shows beforehand what a change of the plan would do: every followed patient under the plan as it will stand on that day without the change, and
 * with it, both as of that day and from what is known today. Changes nothing but the log, which keeps whom the answer named.
 */
export async function tryPlan(call: Call, wish: TrialWish, onProgress?: (progress: Progress) => void): Promise<Outcome<TriedPlan>> {
  const read = await readTrial(call, wish)
  if (!read.ok) return read
  const { last, values, from } = read.value
  const after = planOfValues(values, { version: 'tried', from })
  const { moved, evaluated, dueChanged, counts } = await tryOverCohort(call.store.reader, { before: last, after, on: from }, onProgress)
  const { role } = call.actor
  const patients = may(role === 'none' ? null : role, 'patient.read').allowed ? moved.toSorted(soonestFirst).slice(0, SHOWN) : null
  const named = (patients ?? []).map(({ patientId }) => patientId)
  const version = wish.kind === 'proposal' ? wish.version : null
  const told = { version, from, sha256: planSha256(values), evaluated, changed: moved.length, patients: named }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'plan-tried', ...told }] }))
  const differences = planDifferences(valuesOf(last), values)
  return { ok: true, value: { on: from, evaluated, changed: moved.length, dueChanged, counts, differences, patients } }
}
