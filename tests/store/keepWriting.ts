import { fromOutside } from './outside.ts'
import { isOnServer } from './testServer.ts'

// BEGIN IMMEDIATE takes SQLite's lock of the file; on the server whoever writes holds the lock that lib/store/postgres/connectServer.ts asks for.
const TAKE_TURN = 'BEGIN; SELECT pg_advisory_xact_lock(7210413)'

/** As another program that goes on writing to this database: nobody else can, until what this answers is called. */
export function keepWriting(url: string): () => void {
  const other = fromOutside(url)
  other.exec(isOnServer(url) ? TAKE_TURN : 'BEGIN IMMEDIATE')
  return () => {
    other.exec('ROLLBACK')
    other.close()
  }
}
