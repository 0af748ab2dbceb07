import type { ByteSource } from '../../intake/index.ts'
import { FILE_CHUNK_BYTES, type Tx } from '../../store/index.ts'

/** A file as received. */
interface Received {
  readonly sha256: string
  readonly source: ByteSource
}

/** Pieces of a file, from one number up to but without the other, counted from 0. */
export interface Pieces {
  readonly from: number
  readonly to: number
}

/** Bytes kept in one transaction at most: more would hold up whoever waits to write. A file of few rows and many bytes has parts without rows. */
export const PIECES_A_PART = 8

/** The pieces that are kept with one of so many parts. */
export function piecesOfPart(pieces: number, part: number, parts: number): Pieces {
  return { from: Math.floor((pieces * part) / parts), to: Math.floor((pieces * (part + 1)) / parts) }
}

/** In how many pieces the bytes of a file are kept; none for one that is small enough to be kept with its row. */
export function piecesIn({ source }: Pick<Received, 'source'>): number {
  return source.length > FILE_CHUNK_BYTES ? Math.ceil(source.length / FILE_CHUNK_BYTES) : 0
}

/** Keeps some pieces of a file that is kept in pieces; none for any other. */
export function keepPieces(tx: Tx, { sha256, source }: Received, { from, to }: Pieces): void {
  for (let piece = from; piece < to; piece++) {
    const begin = piece * FILE_CHUNK_BYTES
    tx.insertFileChunk(sha256, piece + 1, source.read(begin, Math.min(begin + FILE_CHUNK_BYTES, source.length)))
  }
}
