import type { WritingConnection } from '../connection.ts'
import { untilFree } from './busy.ts'
import { queue } from './queue.ts'

/** The one door for writes of this process: one change at a time, each a transaction of its own on a connection nobody else uses. */
export interface Writer {
  /** Runs `change` in a transaction of its own. When it throws, nothing of it is kept and the error is passed on. */
  write<T>(change: () => T): Promise<T>
  /** Waits for what was asked for, then closes. */
  close(): Promise<void>
}

function commitOrNothing<T>(connection: WritingConnection, change: () => T): T {
  try {
    const value = change()
    if (value instanceof Promise) throw new TypeError('A change must be synchronous: awaiting would let other work into its transaction.')
    connection.commit()
    return value
  } catch (error) {
    connection.rollback()
    throw error
  }
}

/** `patienceMs`: how long another program's write is waited for before StoreBusy. */
export function writerOn(connection: WritingConnection, patienceMs: number): Writer {
  const turns = queue()
  let closing = false
  return {
    write(change) {
      if (closing) return Promise.reject(new Error('The database is closed.'))
      return turns.run(async () => {
        await untilFree(() => connection.begin(), patienceMs)
        return commitOrNothing(connection, change)
      })
    },
    async close() {
      closing = true
      await turns.idle()
      connection.close()
    },
  }
}
