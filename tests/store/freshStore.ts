import { copyFileSync, existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore, type Store } from '../../lib/store/index.ts'

const directory = mkdtempSync(join(tmpdir(), 'lowmark-tests-'))
process.once('exit', () => rmSync(directory, { recursive: true, force: true }))

const MIGRATED = join(directory, 'migrated.db')
let counter = 0

/** One migrated file a test process, made on first use and only ever copied. */
async function migratedFile(): Promise<string> {
  if (existsSync(MIGRATED)) return MIGRATED
  const making = join(directory, `making-${++counter}.db`)
  const store = await openStore(`file:${making}`)
  // Closing the last connection moves the write-ahead log into the file, so that the file alone is the whole database.
  await store.close()
  renameSync(making, MIGRATED)
  return MIGRATED
}

/** A place for a database of one test, with no file in it yet. */
export function freshUrl(): string {
  const own = join(directory, `own-${++counter}`)
  mkdirSync(own)
  return `file:${join(own, 'lowmark.db')}`
}

/** An empty migrated database of its own for one test. `dispose` closes it and takes its files away. */
export async function freshStore(): Promise<{ store: Store; url: string; dispose: () => Promise<void> }> {
  const url = freshUrl()
  const path = url.slice('file:'.length)
  copyFileSync(await migratedFile(), path)
  const store = await openStore(url)
  return {
    store,
    url,
    async dispose() {
      await store.close()
      rmSync(join(path, '..'), { recursive: true, force: true })
    },
  }
}
