import 'server-only'
import { z } from 'zod'
import type { IncomingFile, Outcome } from '../../lib/usecases/index.ts'

export const FILES_HEADER = 'x-lowmark-files'
/** intake.md: more than 512 MiB is refused. Counted on what arrives, whatever the sender says about it. */
const MOST_BYTES = 512 * 1024 * 1024

const MANIFEST = z
  .array(z.strictObject({ name: z.string().min(1).max(255), size: z.number().int().min(0) }))
  .min(1)
  .max(100)

function invalid(reason: string): Outcome<never> {
  return { ok: false, kind: 'invalid', reason }
}

function readManifest(text: string | null): z.output<typeof MANIFEST> | null {
  try {
    return MANIFEST.parse(JSON.parse(decodeURIComponent(text ?? '')))
  } catch {
    return null
  }
}

/** The bytes of a body; null where more come than may. Reading stops there. */
async function readBody(body: ReadableStream<Uint8Array> | null): Promise<Buffer | null> {
  const parts: Uint8Array[] = []
  let received = 0
  for await (const part of body ?? []) {
    received += part.byteLength
    if (received > MOST_BYTES) return null
    parts.push(part)
  }
  return Buffer.concat(parts)
}

/**
 * The files of one request: their bytes one after the other as the body, their names and sizes as a header, because file names do not
 * belong in an address and bytes do not need an envelope. Refused when too large, or when other than the declared bytes arrive.
 */
export async function readUpload(request: Request): Promise<Outcome<readonly IncomingFile[]>> {
  const manifest = readManifest(request.headers.get(FILES_HEADER))
  if (manifest === null) return invalid('The names and sizes of the files did not come with them.')
  const declared = manifest.reduce((sum, file) => sum + file.size, 0)
  const body = declared > MOST_BYTES ? null : await readBody(request.body)
  if (body === null) return invalid('More than 512 MiB. Nothing was read; split the file.')
  if (declared !== body.byteLength)
    return invalid(`${declared} bytes were announced and ${body.byteLength} arrived. Nothing was read; send it again.`)
  let from = 0
  const files = manifest.map(({ name, size }) => {
    const bytes = body.subarray(from, from + size)
    from += size
    return { name, bytes }
  })
  return { ok: true, value: files }
}
