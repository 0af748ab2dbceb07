import { sendBeside } from '../../../_server/sendBeside.ts'

/** What stands of this patient beside the list. Asking for it is entered in the log, as opening the page is. */
export async function GET(_: Request, { params }: { readonly params: Promise<{ address: string }> }): Promise<Response> {
  return sendBeside((await params).address)
}
