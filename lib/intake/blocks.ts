import type { ByteSource } from './byteSource.ts'

const BLOCK = 1024 * 1024

/** A stretch of a source, and the byte it begins at. */
export interface Block {
  readonly from: number
  readonly bytes: Uint8Array
}

/** A source from one end to the other, a stretch at a time. */
export function* blocksOf(source: ByteSource, from = 0): Generator<Block> {
  for (let at = from; at < source.length; at += BLOCK) yield { from: at, bytes: source.read(at, Math.min(at + BLOCK, source.length)) }
}
