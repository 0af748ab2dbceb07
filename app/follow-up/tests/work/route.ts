import { testsInLines } from '../../../_server/followUpInLines.ts'

/** Finds the tests behind a row of the audit and tells how far that is. */
export function POST(request: Request): Promise<Response> {
  return testsInLines(request)
}
