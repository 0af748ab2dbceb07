import { closeSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs'

const PAGE = 4096

/** Turns round some bytes of a page of a file (counted from 1, as SQLite does), from a place in it on. */
export function flipBytes(path: string, page: number, from = 0, count = 64): void {
  const file = openSync(path, 'r+')
  const bytes = Buffer.alloc(count)
  const at = (page - 1) * PAGE + from
  readSync(file, bytes, 0, count, at)
  for (let n = 0; n < count; n++) bytes[n] = (bytes[n] ?? 0) ^ 0xff
  writeSync(file, bytes, 0, count, at)
  fsyncSync(file)
  closeSync(file)
}
