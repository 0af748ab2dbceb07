import { waitingInLines } from '../../../_server/followUpInLines.ts'

/** Finds what waits behind a figure of the audit and tells how far that is. */
export function POST(request: Request): Promise<Response> {
  return waitingInLines(request)
}
