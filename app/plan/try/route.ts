import { tryPlanInLines } from '../../_server/tryPlanInLines.ts'

/** Tries a change of the plan on the whole cohort and tells how far it is. */
export function POST(request: Request): Promise<Response> {
  return tryPlanInLines(request)
}
