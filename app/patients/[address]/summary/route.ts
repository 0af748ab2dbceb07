import { sendSummary } from '../../../_server/sendSummary.ts'

/** One patient as a FHIR R4 file. Sent by a form, because it is entered in the log. */
export async function POST(request: Request, { params }: { readonly params: Promise<{ address: string }> }): Promise<Response> {
  return sendSummary(request, (await params).address)
}
