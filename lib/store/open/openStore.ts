import type { Store } from '../store.ts'
import { faultSays } from './faultSays.ts'
import { NotOpened } from './notOpened.ts'
import { openFile } from './openFile.ts'
import type { OpenOptions } from './openOptions.ts'
import { openServer } from './openServer.ts'
import { isOnServer } from './serverAddress.ts'

/**
 * Opens the database `url` names (`file:./var/lowmark.db`, relative to where the program runs, or `postgresql://user@host/name`), migrated where behind, and a
 * file made where missing. Throws NotOpened, with what to do, when it cannot be opened as safely as it must; StoreBusy when another program keeps it locked.
 */
export async function openStore(url: string, options: OpenOptions = {}): Promise<Store> {
  try {
    return await (isOnServer(url) ? openServer(url, options) : openFile(url, options))
  } catch (error) {
    const says = faultSays(error)
    throw says === null ? error : new NotOpened(`The database was not opened: ${says}`)
  }
}
