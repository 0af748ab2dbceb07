import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'

/** SHA-256 (hexadecimal) of a file, read in pieces. */
export async function sha256Of(path: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const piece of createReadStream(/* turbopackIgnore: true */ path)) hash.update(piece as Buffer)
  return hash.digest('hex')
}
