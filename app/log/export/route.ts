import { sendLog } from '../../_server/sendLog.ts'

/** The whole log as a file. Sent by a form, because it is entered in the log. */
export function POST(request: Request): Promise<Response> {
  return sendLog(request)
}
