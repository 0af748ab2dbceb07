import { sendFindings } from '../../../_server/sendList.ts'
import { queryOf } from '../../query.ts'

/** Every current finding of the list the address asks for, as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendFindings(request, queryOf(request))
}
