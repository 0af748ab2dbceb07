import { closeSync, openSync, readSync, statSync } from 'node:fs'
import type { ByteSource } from '../../intake/index.ts'

/** A file of this machine as a source. It is opened when it is first read; closed, it opens again when it is read again. */
export function fileSource(path: string): ByteSource & { readonly close: () => void } {
  let file: number | null = null
  return {
    length: statSync(/* turbopackIgnore: true */ path).size,
    read(from, to) {
      file ??= openSync(/* turbopackIgnore: true */ path, 'r')
      const bytes = Buffer.allocUnsafe(to - from)
      for (let filled = 0; filled < bytes.length; ) {
        const got = readSync(file, bytes, filled, bytes.length - filled, from + filled)
        if (got === 0) throw new Error(`${path} has become shorter while it was read.`)
        filled += got
      }
      return bytes
    },
    close() {
      if (file !== null) closeSync(file)
      file = null
    },
  }
}
