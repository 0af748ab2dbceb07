import { workOutInLines } from '../../_server/followUpInLines.ts'

/** Works the audit of a period out and tells how far it is. */
export function POST(request: Request): Promise<Response> {
  return workOutInLines(request)
}
