import { createHash } from 'node:crypto'
import type { Connection } from '../connection.ts'
import { FILE_CHUNK_BYTES } from '../write/files.ts'
import { fileById } from './files.ts'

const WHOLE = 'SELECT bytes FROM intake_file_bytes WHERE sha256 = ?'
const CHUNK = 'SELECT bytes FROM intake_file_chunk WHERE sha256 = ? AND number = ?'

function* pieces({ statement }: Connection, sha256: string): Generator<Buffer> {
  const whole = statement<{ bytes: Buffer }>(WHOLE).get(sha256)?.bytes
  if (whole !== undefined && whole.byteLength > 0) yield whole
  for (let number = 1; ; number++) {
    const chunk = statement<{ bytes: Buffer }>(CHUNK).get(sha256, number)
    if (chunk === undefined) return
    yield chunk.bytes
  }
}

/**
 * The bytes of a file as received, a piece at a time; nothing where the number is nobody's. Throws at the end where they are not those whose digest was
 * kept: some are missing where taking the file in was interrupted, until it is sent again.
 */
export function* fileChunks(connection: Connection, id: number): Generator<Buffer> {
  const file = fileById(connection, id)
  if (file === null) return
  const hash = createHash('sha256')
  let bytes = 0
  for (const piece of pieces(connection, file.sha256)) {
    hash.update(piece)
    bytes += piece.byteLength
    yield piece
  }
  if (bytes < file.byteCount) throw new Error(`Of file ${id} only ${bytes} of ${file.byteCount} bytes are kept; send it again.`)
  if (hash.digest('hex') !== file.sha256) throw new Error(`The bytes kept of file ${id} are not those that came in: their SHA-256 differs.`)
}

/** Are the bytes of a file all there, and those that came in? `unfinished`: taking a large file in was interrupted, until it is sent again. */
export function keptBytes(connection: Connection, id: number): 'whole' | 'unfinished' | 'changed' {
  const file = fileById(connection, id)
  if (file === null) return 'changed'
  const hash = createHash('sha256')
  let bytes = 0
  for (const piece of pieces(connection, file.sha256)) {
    hash.update(piece)
    bytes += piece.byteLength
  }
  if (bytes < file.byteCount && file.byteCount > FILE_CHUNK_BYTES) return 'unfinished'
  return hash.digest('hex') === file.sha256 ? 'whole' : 'changed'
}

/** The bytes of a small file in one piece; null where the number is nobody's. */
export function fileBytes(connection: Connection, id: number): Buffer | null {
  return fileById(connection, id) === null ? null : Buffer.concat([...fileChunks(connection, id)])
}
