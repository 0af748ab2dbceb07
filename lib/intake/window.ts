import type { ByteSource } from './byteSource.ts'

const AHEAD = 256 * 1024
const NEAR = 64 * 1024

/** Short stretches of a source by their places: read ahead where they follow one another, by themselves where they lie scattered. */
export function windowOn(source: ByteSource): (from: number, to: number) => Buffer {
  let [first, last] = [0, 0]
  let held: Buffer = Buffer.alloc(0)
  return (from, to) => {
    if (from < first || to > last) {
      const follows = from >= first && from - last < NEAR
      const end = follows ? Math.min(Math.max(to, from + AHEAD), source.length) : to
      const bytes = source.read(from, end)
      held = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
      ;[first, last] = [from, end]
    }
    return held.subarray(from - first, to - first)
  }
}
