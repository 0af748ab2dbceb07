import { askApart, type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { readTrial, type TrialWish } from './tryPlan.ts'
import type { TriedPlan } from './views.ts'

/** What the process apart is told. */
export interface PlanApartRequest extends CallApart {
  /** Null: no trial, but every standing that no longer holds is renewed. */
  readonly trial: TrialWish | null
}

function apart(call: Call, trial: TrialWish | null, onProgress?: (progress: Progress) => void): Promise<Outcome<TriedPlan | null>> {
  const request: PlanApartRequest = { ...callApart(call), trial }
  return askApart('planApart.ts', request, 'The process apart ended without an answer. Nothing was changed by half.', onProgress)
}

/** Tries a change like `tryPlan`, in a process of its own: evaluating a whole cohort twice never holds up a page. Rejects when that process ends early. */
export async function tryPlanApart(call: Call, wish: TrialWish, onProgress: (progress: Progress) => void): Promise<Outcome<TriedPlan>> {
  const read = await readTrial(call, wish)
  if (!read.ok) return read
  const outcome = await apart(call, wish, onProgress)
  if (!outcome.ok) return outcome
  if (outcome.value === null) throw new Error('A trial was asked for, and something else was answered.')
  return { ok: true, value: outcome.value }
}

/** Renews every standing that no longer holds, in a process of its own. What it does not reach is renewed when somebody looks. */
export async function renewApart(call: Call): Promise<void> {
  await apart(call, null)
}
