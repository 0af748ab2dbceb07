import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore } from '../../lib/store/index.ts'
import { copyOf, freshUrl } from '../store/freshStore.ts'
import { isOnServer } from '../store/testServer.ts'
import { takeDamaged } from '../usecases/decisions/damaged.ts'

let made: Promise<string> | null = null

async function makeOnce(): Promise<string> {
  const url = freshUrl()
  const store = await openStore(url)
  await takeDamaged(store)
  await store.close()
  return url
}

/** A copy of a small clinic (`takeDamaged`) as one file in this folder, or as a database of its own on the server; answers its address. */
export async function clinicIn(folder: string): Promise<string> {
  made ??= makeOnce()
  const copy = copyOf(await made)
  if (isOnServer(copy)) return copy
  const path = join(folder, 'lowmark.db')
  copyFileSync(copy.slice('file:'.length), path)
  return `file:${path}`
}

/** A folder of its own for one fault. */
export function ownFolder(): { readonly folder: string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'lowmark-fault-'))
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) }
}
