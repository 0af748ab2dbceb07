import 'server-only'
import { databaseUrl, openStore, type Store } from '../../lib/store/index.ts'
import { sharedStore } from './sharedStore.ts'

/** The database of this process, opened on first use. Throws where it cannot be opened as it must be. */
export function store(): Promise<Store> {
  return sharedStore(() => openStore(databaseUrl()))
}
