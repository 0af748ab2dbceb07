import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { openStore, placeOnThisMachine, type Store } from '../../lib/store/index.ts'
import { fromOutside } from './outside.ts'
import { dropDatabase, isOnServer, newDatabase, TEST_SERVER } from './testServer.ts'

const directory = mkdtempSync(join(tmpdir(), 'lowmark-tests-'))
process.once('exit', () => rmSync(directory, { recursive: true, force: true }))

let counter = 0
const folders = new Map<string, string>()

const pathOf = (url: string): string => url.slice('file:'.length)

function newFolder(): string {
  const folder = join(directory, `own-${++counter}`)
  mkdirSync(folder)
  return folder
}

/** A place for a database of one test, with nothing in it yet: a file that is not there, or an empty database of the server. */
export function freshUrl(): string {
  const folder = newFolder()
  const url = TEST_SERVER === null ? `file:${join(folder, 'lowmark.db')}` : newDatabase()
  folders.set(url, folder)
  return url
}

/** A folder for what a test puts beside this database. */
export function folderOf(url: string): string {
  return folders.get(url) ?? dirname(pathOf(url))
}

/** Where files for this database lie between their arrival and their being taken in. */
export const incomingOf = (url: string): string => `${placeOnThisMachine(url)}-incoming`

/** A copy of a database that nobody has open. */
export function copyOf(url: string): string {
  const folder = newFolder()
  const copy = isOnServer(url) ? newDatabase(url) : `file:${join(folder, 'lowmark.db')}`
  folders.set(copy, folder)
  if (!isOnServer(url)) {
    // A store's own reading connection closes last and may not write: this one moves the write-ahead log into the file, so that it alone is the whole.
    const db = fromOutside(url)
    db.values('PRAGMA wal_checkpoint(TRUNCATE)')
    db.close()
    copyFileSync(pathOf(url), pathOf(copy))
  }
  return copy
}

let migrated: Promise<string> | null = null

/** One migrated database a test process, made on first use and only ever copied. */
async function migratedUrl(): Promise<string> {
  const url = freshUrl()
  await (await openStore(url)).close()
  return url
}

export interface FreshStore {
  readonly store: Store
  readonly url: string
  /** Closes it and takes away the database with everything beside it. */
  readonly dispose: () => Promise<void>
}

/** Takes away a database that nobody has open any more, and everything beside it. */
export function takeAway(url: string): void {
  if (isOnServer(url)) {
    dropDatabase(url)
    rmSync(incomingOf(url), { recursive: true, force: true })
  }
  rmSync(folderOf(url), { recursive: true, force: true })
}

/** Opens a database of one test. */
export async function storeAt(url: string): Promise<FreshStore> {
  const store = await openStore(url)
  return {
    store,
    url,
    async dispose() {
      await store.close()
      takeAway(url)
    },
  }
}

/** An empty migrated database of its own for one test. */
export async function freshStore(): Promise<FreshStore> {
  migrated ??= migratedUrl()
  return storeAt(copyOf(await migrated))
}
