import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { open } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { Decrypter, Encrypter } from 'age-encryption'
import { NoBackup } from './refusal.ts'

/** How a file in the age format begins (C2SP, age-encryption.org/v1). */
export const AGE_BEGINS = 'age-encryption.org/v1\n'

/** What was written: its SHA-256 (hexadecimal) and its length. */
export interface Written {
  readonly sha256: string
  readonly bytes: number
}

function piecesOf(path: string, onPiece: (piece: Uint8Array) => void): ReadableStream<Uint8Array> {
  const pieces = async function* (): AsyncGenerator<Uint8Array> {
    for await (const piece of createReadStream(/* turbopackIgnore: true */ path)) {
      onPiece(piece as Buffer)
      yield piece as Buffer
    }
  }
  return Readable.toWeb(Readable.from(pieces(), { objectMode: true, highWaterMark: 1 })) as unknown as ReadableStream<Uint8Array>
}

/** Writes pieces over a file that is there, one at a time, and makes them survive a power cut. */
export async function writePieces(pieces: AsyncIterable<Uint8Array>, to: string): Promise<Written> {
  const file = await open(/* turbopackIgnore: true */ to, 'r+')
  const hash = createHash('sha256')
  let bytes = 0
  try {
    await file.truncate()
    for await (const piece of pieces) {
      hash.update(piece)
      await file.writeFile(piece)
      bytes += piece.byteLength
    }
    await file.sync()
  } finally {
    await file.close()
  }
  return { sha256: hash.digest('hex'), bytes }
}

/** Encrypts a file for its recipients into another one, piece by piece. */
export async function sealFile(from: string, to: string, recipients: readonly string[]): Promise<Written> {
  const encrypter = new Encrypter()
  for (const recipient of recipients) encrypter.addRecipient(recipient)
  const sealed = await encrypter.encrypt(piecesOf(from, () => undefined))
  return writePieces(sealed as unknown as AsyncIterable<Uint8Array>, to)
}

/** Decrypts a file into another one; answers the SHA-256 of both. Throws NoBackup where no identity opens it or a single bit of it was changed. */
export async function openSealed(
  from: string,
  to: string,
  identities: readonly string[],
): Promise<{ readonly sealedSha256: string; readonly opened: Written }> {
  const decrypter = new Decrypter()
  for (const identity of identities) decrypter.addIdentity(identity)
  const hash = createHash('sha256')
  try {
    const plain = await decrypter.decrypt(piecesOf(from, (piece) => hash.update(piece)))
    const opened = await writePieces(plain as unknown as AsyncIterable<Uint8Array>, to)
    return { sealedSha256: hash.digest('hex'), opened }
  } catch (error) {
    if (error instanceof Error && 'code' in error) throw error
    const noKey = error instanceof Error && /no identity matched/.test(error.message)
    throw new NoBackup(
      noKey
        ? `The identity does not open ${from}: it was encrypted for another recipient.`
        : `${from} does not decrypt: it was cut off or changed after it was written. Use another backup.`,
    )
  }
}
