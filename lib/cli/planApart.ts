/** The process apart that holds the whole cohort against a plan, or renews what no longer holds. */
import { type PlanApartRequest, renewStandings, type TriedPlan, tryPlan } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<PlanApartRequest, TriedPlan | null>('The patients could not be evaluated', async (store, { call: given, trial }, onProgress) => {
  const call = { store, ...given }
  if (trial !== null) return tryPlan(call, trial, onProgress)
  await renewStandings(call)
  return { ok: true, value: null }
})
