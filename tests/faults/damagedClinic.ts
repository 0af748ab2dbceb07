import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { openStore } from '../../lib/store/index.ts'
import { freshUrl } from '../store/freshStore.ts'
import { takeDamaged } from '../usecases/decisions/damaged.ts'

let made: Promise<string> | null = null

async function makeOnce(): Promise<string> {
  const url = freshUrl()
  const store = await openStore(url)
  await takeDamaged(store)
  await store.close()
  const path = url.slice('file:'.length)
  new Database(path).exec('PRAGMA wal_checkpoint(TRUNCATE)').close()
  return path
}

/** A copy of a small clinic (`takeDamaged`) as one file in this folder; answers its address. */
export async function clinicIn(folder: string): Promise<string> {
  made ??= makeOnce()
  const path = join(folder, 'lowmark.db')
  copyFileSync(await made, path)
  return `file:${path}`
}

/** A folder of its own for one fault. */
export function ownFolder(): { readonly folder: string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'lowmark-fault-'))
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) }
}
