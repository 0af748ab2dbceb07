/**
 * An answer in pieces, read as the browser takes them, so that however long it is, little of it is in memory. Before each piece `holds` is asked whether
 * the session it was begun in still does: where not, and where a piece fails, the download breaks off.
 */
export function inPieces(pieces: Generator<string, void>, holds: () => boolean): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  return new ReadableStream<Uint8Array>({
    pull(stream) {
      const next = pieces.next()
      if (next.done === true) return stream.close()
      if (holds()) return stream.enqueue(encoder.encode(next.value))
      pieces.return()
      stream.error(new Error('The session ended before the answer did.'))
    },
    cancel() {
      pieces.return()
    },
  })
}
