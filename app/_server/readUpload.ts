import 'server-only'
import { z } from 'zod'
import { type Outcome, type SpooledFiles, spoolFiles } from '../../lib/usecases/index.ts'

export const FILES_HEADER = 'x-lowmark-files'

const MANIFEST = z
  .array(z.strictObject({ name: z.string().min(1).max(255), size: z.number().int().min(0) }))
  .min(1)
  .max(100)

function readManifest(text: string | null): z.output<typeof MANIFEST> | null {
  try {
    return MANIFEST.parse(JSON.parse(decodeURIComponent(text ?? '')))
  } catch {
    return null
  }
}

async function* nothing(): AsyncGenerator<Uint8Array> {}

/**
 * The files of one request: their bytes one after the other as the body, their names and sizes as a header, because file names do not
 * belong in an address and bytes do not need an envelope. They are written beside the database as they arrive, and never held in memory. Refused when
 * too large, or when other than the announced bytes arrive, whatever the length of the request says.
 */
export async function readUpload(request: Request): Promise<Outcome<SpooledFiles>> {
  const manifest = readManifest(request.headers.get(FILES_HEADER))
  if (manifest === null) return { ok: false, kind: 'invalid', reason: 'The names and sizes of the files did not come with them.' }
  return spoolFiles(manifest, request.body ?? nothing())
}
