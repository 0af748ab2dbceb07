import type { Store } from '../../lib/store/index.ts'

// Next.js bundles a page apart from the server that runs it, and a page apart from a route: one store for all of them has to live here.
const KEY = Symbol.for('lowmark.store')
const shared = globalThis as { [KEY]?: Promise<Store> }

/** The one open store of this process; `open` is called the first time only, and again after it failed. */
export async function sharedStore(open: () => Promise<Store>): Promise<Store> {
  shared[KEY] ??= open()
  try {
    return await shared[KEY]
  } catch (error) {
    delete shared[KEY]
    throw error
  }
}

/** Closes the store where one was opened. */
export async function closeSharedStore(): Promise<void> {
  const open = shared[KEY]
  delete shared[KEY]
  await (await open?.catch(() => undefined))?.close()
}
