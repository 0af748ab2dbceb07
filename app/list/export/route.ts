import { sendList } from '../../_server/sendList.ts'
import { queryOf } from '../query.ts'

/** The list the address asks for, all its pages, as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendList(request, queryOf(request))
}
