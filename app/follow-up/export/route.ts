import { sendFollowUp } from '../../_server/sendFollowUp.ts'
import { fileAsked } from '../query.ts'

/** A table of the audit as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendFollowUp(request, fileAsked(request))
}
