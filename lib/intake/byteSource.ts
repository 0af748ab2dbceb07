/** The bytes of a file wherever they lie, read as they are needed and never all at once. Reading is synchronous. */
export interface ByteSource {
  readonly length: number
  /** The bytes from `from` up to but without `to`. Throws where the file has become shorter. */
  readonly read: (from: number, to: number) => Uint8Array
}

/** Bytes already in memory as a source. */
export function bytesInMemory(bytes: Uint8Array): ByteSource {
  return { length: bytes.length, read: (from, to) => bytes.subarray(from, to) }
}
