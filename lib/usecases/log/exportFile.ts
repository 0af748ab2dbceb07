import { createHash } from 'node:crypto'
import { closeSync, existsSync, fsyncSync, openSync, readSync, renameSync, rmSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import { StringDecoder } from 'node:string_decoder'
import { toDisk } from '../backup/place.ts'

const CHUNK_BYTES = 1 << 20
const OWNER_ONLY = 0o600

/** What was written under a name that is not the file's yet. */
export interface Part {
  readonly path: string
  readonly sha256: string
}

/** Writes a file beside its final name and waits until it is on the disk. Throws the error of the file system. */
export function writePart(path: string, chunks: Iterable<string>): Part {
  const part = `${path}.part`
  const hash = createHash('sha256')
  const file = openSync(part, 'w', OWNER_ONLY)
  try {
    for (const chunk of chunks) {
      const bytes = Buffer.from(chunk)
      hash.update(bytes)
      for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at)
    }
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
  return { path: part, sha256: hash.digest('hex') }
}

function* bytesOf(path: string): Generator<Buffer, void> {
  const file = openSync(path, 'r')
  try {
    const buffer = Buffer.alloc(CHUNK_BYTES)
    for (let read = readSync(file, buffer); read > 0; read = readSync(file, buffer)) yield buffer.subarray(0, read)
  } finally {
    closeSync(file)
  }
}

/** Reads a file line by line without holding it; `onBytes` sees every byte. A last line needs no line end. */
export function* linesOf(path: string, onBytes: (bytes: Uint8Array) => void): Generator<string, void> {
  const decoder = new StringDecoder('utf8')
  let pieces: string[] = []
  for (const bytes of bytesOf(path)) {
    onBytes(bytes)
    const [begun = '', ...rest] = decoder.write(bytes).split('\n')
    pieces.push(begun)
    for (const next of rest) {
      yield pieces.join('')
      pieces = [next]
    }
  }
  const last = pieces.join('') + decoder.end()
  if (last !== '') yield last
}

function digestOf(path: string): string {
  const hash = createHash('sha256')
  for (const bytes of bytesOf(path)) hash.update(bytes)
  return hash.digest('hex')
}

/** Gives a written part its final name, on the disk. A file of that name stays as it is: the same bytes are done already, others throw. */
export function finishPart(path: string, part: Part): void {
  if (existsSync(path)) {
    const isSame = digestOf(path) === part.sha256
    rmSync(part.path)
    if (!isSame) throw new Error(`"${path}" is there already and holds something else. Name another file.`)
    return
  }
  renameSync(part.path, path)
  toDisk(dirname(path))
}
