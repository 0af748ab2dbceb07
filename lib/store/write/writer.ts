import type { Connection } from '../connection.ts'
import { untilFree } from './busy.ts'
import { queue } from './queue.ts'

/** The one door for writes of this process: one change at a time, each a transaction of its own on a connection nobody else uses. */
export interface Writer {
  /** Runs `change` between BEGIN IMMEDIATE and COMMIT. When it throws, nothing of it is kept and the error is passed on. */
  write<T>(change: () => T): Promise<T>
  /** Waits for what was asked for, then closes. */
  close(): Promise<void>
}

function commitOrNothing<T>({ db }: Connection, change: () => T): T {
  try {
    const value = change()
    if (value instanceof Promise) throw new TypeError('A change must be synchronous: awaiting would let other work into its transaction.')
    db.exec('COMMIT')
    return value
  } catch (error) {
    // SQLite may have ended the transaction itself, on a full disk for one.
    if (db.inTransaction) db.exec('ROLLBACK')
    throw error
  }
}

/** `patienceMs`: how long another program's write is waited for before StoreBusy. */
export function writerOn(connection: Connection, patienceMs: number): Writer {
  const turns = queue()
  let closing = false
  return {
    write(change) {
      if (closing) return Promise.reject(new Error('The database is closed.'))
      return turns.run(async () => {
        await untilFree(() => connection.db.exec('BEGIN IMMEDIATE'), patienceMs)
        return commitOrNothing(connection, change)
      })
    },
    async close() {
      closing = true
      await turns.idle()
      connection.db.close()
    },
  }
}
