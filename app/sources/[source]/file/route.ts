import { profileFile } from '../../../_server/profileFile.ts'

/** The profile of a source as a file. */
export async function GET(_: Request, { params }: { readonly params: Promise<{ readonly source: string }> }): Promise<Response> {
  return profileFile(decodeURIComponent((await params).source))
}
