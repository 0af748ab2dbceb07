import { receiveFiles } from '../../_server/receiveFiles.ts'

/** Files sent by the intake page. */
export function POST(request: Request): Promise<Response> {
  return receiveFiles(request)
}
