import 'server-only'
import { type ExportWish, exportKeptFollowUp } from '../../lib/usecases/index.ts'
import { sendFile } from './sendFile.ts'

/** A table of the follow-up audit as a file. */
export const sendFollowUp = (request: Request, wish: ExportWish): Promise<Response> =>
  sendFile(request, 'text/csv; charset=utf-8; header=absent', (call) => exportKeptFollowUp(call, wish))
