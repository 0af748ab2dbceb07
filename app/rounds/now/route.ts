import { tellRoundNow } from '../../_server/tellRoundNow.ts'
import { queryOf } from '../../list/query.ts'

/** How far the round is, for a list that stands on a screen while it is worked through. */
export function GET(request: Request): Promise<Response> {
  return tellRoundNow(queryOf(request).since ?? null)
}
