import type { Connection } from '../connection.ts'

/** Runs several reads so that all of them see one moment, whatever other programs commit in between. Inside a transaction that is so already. */
export function inSnapshot<T>({ db }: Connection, read: () => T): T {
  return db.inTransaction ? read() : db.transaction(read).deferred()
}
