import type { ByteSource } from '../byteSource.ts'

const BLOCK = 256 * 1024

/** A source read in blocks, one at a time, for reading that goes forward. */
export class Windows {
  readonly source: ByteSource
  readonly length: number
  /** What is best asked for at a time where all of it is read; longer than a character. */
  readonly step: number
  readonly size: number
  private block: Uint8Array = new Uint8Array(0)
  private from = 0

  constructor(source: ByteSource, size = BLOCK) {
    this.source = source
    this.length = source.length
    this.size = size
    this.step = Math.max(8, size >> 2)
  }

  /** The byte at a place, -1 behind the last. */
  byteAt(at: number): number {
    const byte = this.block[at - this.from]
    if (byte !== undefined) return byte
    if (at >= this.length) return -1
    this.load(at, this.size)
    return this.block[0] ?? -1
  }

  /** The bytes from `from` up to but without `to`; they stay as they are only until the next call. */
  bytes(from: number, to: number): Uint8Array {
    if (from < this.from || to > this.from + this.block.length) this.load(from, Math.max(to - from, this.size))
    return this.block.subarray(from - this.from, to - this.from)
  }

  /** Where a byte stands first from `from` on and before `to`; `to` where it does not. */
  indexOf(byte: number, from: number, to = this.length): number {
    for (let at = from; at < to; ) {
      this.byteAt(at)
      const end = Math.min(to, this.from + this.block.length)
      const found = this.block.subarray(at - this.from, end - this.from).indexOf(byte)
      if (found >= 0) return at + found
      at = end
    }
    return to
  }

  private load(from: number, length: number): void {
    this.block = this.source.read(from, Math.min(this.length, from + length))
    this.from = from
  }
}
