import { sendCohort } from '../../_server/sendList.ts'
import { cohortQueryOf } from '../query.ts'

/** The list under pseudonyms the address asks for, all its pages, as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendCohort(request, cohortQueryOf(request))
}
