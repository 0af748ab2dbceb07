import { sendCohortFindings } from '../../../_server/sendList.ts'
import { cohortQueryOf } from '../../query.ts'

/** Every current finding of the list under pseudonyms, as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendCohortFindings(request, cohortQueryOf(request))
}
